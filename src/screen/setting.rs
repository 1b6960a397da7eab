//! What the user may say by a variable of the environment, beyond what the program finds out by itself.

/// What is wrong with a variable that says what it may not; one that says nothing is in order.
pub(super) fn misnamed(
    name: &str,
    variable: impl Fn(&str) -> Option<String>,
    may: impl IntoIterator<Item = &'static str>,
) -> Option<String> {
    let value = variable(name).filter(|value| !value.is_empty())?;
    let may: Vec<&str> = may.into_iter().collect();
    (!may.contains(&value.as_str())).then(|| {
        let value: String = value.chars().filter(|c| !c.is_control()).take(20).collect();
        format!("{name} says `{value}`; it may say {}", may.join(", "))
    })
}
