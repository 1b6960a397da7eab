//! Sums as the page writes them: `(11 × sin 75° ÷ 34) × 36 ÷ sin 75°`, `π`, `+` and `−`.

/// What a sum comes to.
pub fn sum(text: &str) -> f64 {
    let spaced = text.replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut reader = Reader { words: &words, text };
    let value = reader.terms();
    assert!(reader.words.is_empty(), "`{text}` goes on with {:?}", reader.words);
    value
}

struct Reader<'a> {
    words: &'a [&'a str],
    text: &'a str,
}

impl Reader<'_> {
    fn takes(&mut self, word: &str) -> bool {
        let is_next = self.words.first() == Some(&word);
        if is_next {
            self.words = &self.words[1..];
        }
        is_next
    }

    fn terms(&mut self) -> f64 {
        let mut value = self.factors();
        loop {
            if self.takes("+") {
                value += self.factors();
            } else if self.takes("−") {
                value -= self.factors();
            } else {
                return value;
            }
        }
    }

    fn factors(&mut self) -> f64 {
        let mut value = self.one();
        loop {
            if self.takes("×") {
                value *= self.one();
            } else if self.takes("÷") {
                value /= self.one();
            } else {
                return value;
            }
        }
    }

    fn one(&mut self) -> f64 {
        if self.takes("(") {
            let value = self.terms();
            assert!(self.takes(")"), "a bracket stays open in `{}`", self.text);
            return value;
        }
        if self.takes("sin") {
            return self.number('°').to_radians().sin();
        }
        if self.takes("π") {
            return std::f64::consts::PI;
        }
        self.number(' ')
    }

    fn number(&mut self, unit: char) -> f64 {
        let (word, rest) = self.words.split_first().unwrap_or_else(|| panic!("`{}` breaks off", self.text));
        self.words = rest;
        word.trim_end_matches(unit).parse().unwrap_or_else(|_| panic!("`{word}` in `{}`", self.text))
    }
}
