//! Values as TOML.

use toml::de::DeValue;

/// The value as TOML: as it stands where it is TOML on one line, and else as text in double quotes.
pub(super) fn written(value: &str) -> String {
    let value = value.trim();
    let is_toml = !value.contains(['\n', '\r', '#']) && DeValue::parse(value).is_ok();
    if is_toml { value.to_owned() } else { quoted(value) }
}

/// A text in double quotes.
pub(super) fn quoted(text: &str) -> String {
    let mut written = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' | '\\' => written.extend(['\\', letter]),
            '\t' => written.push_str("\\t"),
            '\n' => written.push_str("\\n"),
            '\r' => written.push_str("\\r"),
            control if control.is_control() => {
                written.extend(format!("\\u{:04X}", u32::from(control)).chars());
            }
            letter => written.push(letter),
        }
    }
    written.push('"');
    written
}

/// A key, in quotes where it needs them.
pub(super) fn key(name: &str) -> String {
    let is_bare = !name.is_empty()
        && name.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_'));
    if is_bare { name.to_owned() } else { quoted(name) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measurements_become_text_and_plain_values_stay() {
        for (value, toml) in [
            ("7/12", r#""7/12""#),
            ("9' 2\"", r#""9' 2\"""#),
            ("level with main", r#""level with main""#),
            (" true ", "true"),
            ("1964", "1964"),
            ("2026-06-14", "2026-06-14"),
            (r#"["0'", "26'"]"#, r#"["0'", "26'"]"#),
            ("{ eave = \"1'\" }", "{ eave = \"1'\" }"),
            ("true # sure", r#""true # sure""#),
            ("", r#""""#),
            ("a\u{1}\n\\", r#""a\u0001\n\\""#),
        ] {
            assert_eq!(written(value), toml, "{value}");
        }
    }

    #[test]
    fn every_text_reads_back_as_it_was() {
        for text in ["", "a\"b\\c", "\u{7f}\u{85}\t\r\n", "häuser \u{1F3E0}"] {
            assert_eq!(DeValue::parse(&quoted(text)).unwrap().get_ref().as_str(), Some(text));
        }
    }
}
