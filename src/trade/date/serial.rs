//! Dates in files: a string of EDTF. A bare year is written and read as the
//! integer that it looks like, so that YAML need not quote it.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::Date;
use crate::trade::by_text::text_or_integer;

impl Serialize for Date {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let text = self.to_string();
        // Other integers would not read back as they were written: `0926` as 926.
        match text.parse::<u16>() {
            Ok(year) if (1000..=9999).contains(&year) => serializer.serialize_u16(year),
            _ => serializer.serialize_str(&text),
        }
    }
}

impl<'de> Deserialize<'de> for Date {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Date, D::Error> {
        text_or_integer(deserializer, "a date such as 1926-08-14, 1926-08, 1926~, 192X or 1924/1926")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde::de::IntoDeserializer;
    use serde::de::value::{Error, I64Deserializer, StrDeserializer, U64Deserializer};

    fn from_text(text: &str) -> Result<Date, Error> {
        let deserializer: StrDeserializer<'_, Error> = text.into_deserializer();
        Date::deserialize(deserializer)
    }

    fn from_number(number: i64) -> Result<Date, Error> {
        let deserializer: I64Deserializer<Error> = number.into_deserializer();
        Date::deserialize(deserializer)
    }

    #[test]
    fn a_string_is_read_as_edtf() {
        assert_eq!(from_text("1924/1926").unwrap().to_string(), "1924/1926");
    }

    #[test]
    fn an_integer_is_a_year() {
        let deserializer: U64Deserializer<Error> = 1926_u64.into_deserializer();
        assert_eq!(Date::deserialize(deserializer).unwrap().to_string(), "1926");
        assert_eq!(from_number(-1985).unwrap().to_string(), "-1985");
    }

    #[test]
    fn a_bare_year_is_written_as_an_integer_and_nothing_else_is() {
        let written = |text: &str| serde_json::to_string(&text.parse::<Date>().unwrap()).unwrap();
        assert_eq!(written("1926"), "1926");
        for text in ["0926", "1926-08", "192X", "1926?", "-1926"] {
            assert_eq!(written(text), format!("\"{text}\""));
        }
    }

    #[test]
    fn an_integer_that_is_no_year_is_refused() {
        assert!(from_number(26).is_err());
        let message = from_number(19_260_814).unwrap_err().to_string();
        assert!(message.contains("1926-08-14"), "{message}");
    }

    #[test]
    fn a_refusal_carries_the_whole_message() {
        let expected = "1926-13".parse::<Date>().unwrap_err().to_string();
        assert_eq!(from_text("1926-13").unwrap_err().to_string(), expected);
    }
}
