//! Words offered in messages.

/// Words as a list for a message: `a`, `b` or `c`.
pub(crate) fn listed<'a>(words: impl IntoIterator<Item = &'a str>) -> String {
    let quoted: Vec<String> = words.into_iter().map(|word| format!("`{word}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_listed_with_or_before_the_last() {
        assert_eq!(listed(["a"]), "`a`");
        assert_eq!(listed(["a", "b", "c"]), "`a`, `b` or `c`");
        assert_eq!(listed([]), "");
    }
}
