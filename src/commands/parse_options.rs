//! Git's way of reading options, for the one command that stands in for one of git's.
//!
//! clap differs where scripts can tell: git takes options behind the arguments, unambiguous
//! beginnings of long options (`--std`), `--no-` before those that can be undone, and says what is
//! wrong in words and exit statuses of its own. The rules are those of git's `parse-options.c`.

use std::ffi::OsString;

/// What an option takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Takes {
    /// Nothing.
    Nothing,
    /// A number.
    Number,
    /// Any text; the name is for the usage.
    Text(&'static str),
}

/// An option that a command knows.
#[derive(Clone, Copy, Debug)]
pub struct Opt {
    /// The one-letter name.
    pub short: Option<char>,
    /// The long name.
    pub long: Option<&'static str>,
    /// What it takes.
    pub takes: Takes,
    /// Whether there is a `--no-` form.
    pub can_be_undone: bool,
    /// What it does, for the usage.
    pub help: &'static str,
}

/// An option as it was given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Given {
    /// Which one: the index in the table.
    pub option: usize,
    /// What it says.
    pub value: Value,
}

/// What a given option says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// It is there.
    On,
    /// Its `--no-` form is there.
    Off,
    /// A number.
    Number(i64),
    /// A text.
    Text(OsString),
}

/// Why there is nothing to run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stop {
    /// Help was asked for: the usage on stdout.
    Help,
    /// An error, and whether git prints the usage behind it, and where.
    Error(String, Usage),
}

/// Where an error's usage goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Usage {
    /// Nowhere.
    None,
    /// To stderr.
    Stderr,
    /// To stdout, as if it had been asked for.
    Stdout,
}

/// Parts options from arguments.
///
/// `accept` is called for each option in turn and may refuse it with an error in git's words.
///
/// # Errors
/// Where git would stop.
pub fn parse(
    options: &[Opt],
    args: &[OsString],
    mut accept: impl FnMut(Given) -> Result<(), String>,
) -> Result<Vec<OsString>, Stop> {
    let mut rest = Vec::new();
    let mut args = args.iter();
    let mut accept = |option, value| accept(Given { option, value }).map_err(|e| Stop::Error(e, Usage::None));
    while let Some(arg) = args.next() {
        let bytes = arg.as_encoded_bytes();
        if bytes == b"--" || bytes == b"--end-of-options" {
            rest.extend(args.cloned());
            break;
        } else if let Some(long) = bytes.strip_prefix(b"--") {
            match long {
                b"help" | b"help-all" => return Err(Stop::Help),
                _ => {}
            }
            let equals = long.iter().position(|c| *c == b'=');
            let (name, inline) = (&long[..equals.unwrap_or(long.len())], equals.map(|at| os(&long[at + 1..])));
            let (option, undo) = find_long(options, name, long)?;
            let value = match (undo, options[option].takes) {
                (true, _) | (_, Takes::Nothing) if inline.is_some() => {
                    let no = if undo { "no-" } else { "" };
                    let name = options[option].long.unwrap_or_default();
                    return Err(Stop::Error(format!("option `{no}{name}' takes no value"), Usage::None));
                }
                (true, _) => Value::Off,
                (false, Takes::Nothing) => Value::On,
                (false, takes) => {
                    let name = format!("option `{}'", options[option].long.unwrap_or_default());
                    let text = inline.or_else(|| args.next().cloned());
                    read_value(takes, &name, text)?
                }
            };
            accept(option, value)?;
        } else if bytes.len() > 1 && bytes[0] == b'-' {
            parse_switches(options, &bytes[1..], &mut args, &mut accept)?;
        } else {
            rest.push(arg.clone());
        }
    }
    Ok(rest)
}

/// Reads `-pq` or `-Lname`.
fn parse_switches<'a>(
    options: &[Opt],
    mut letters: &[u8],
    args: &mut impl Iterator<Item = &'a OsString>,
    accept: &mut impl FnMut(usize, Value) -> Result<(), Stop>,
) -> Result<(), Stop> {
    let all = letters;
    let mut first = true;
    while let Some((letter, after)) = letters.split_first() {
        letters = after;
        let known = options.iter().position(|o| o.short == Some(*letter as char));
        if let Some(option) = known {
            let value = match options[option].takes {
                Takes::Nothing => Value::On,
                takes => {
                    let attached = (!letters.is_empty()).then(|| os(letters));
                    letters = &[];
                    let text = attached.or_else(|| args.next().cloned());
                    read_value(takes, &format!("switch `{}'", *letter as char), text)?
                }
            };
            accept(option, value)?;
        } else if *letter == b'h' && first && letters.is_empty() {
            return Err(Stop::Help);
        } else {
            return Err(unknown_switch(options, all, *letter));
        }
        if first {
            look_for_typo(options, all)?;
        }
        first = false;
    }
    Ok(())
}

fn unknown_switch(options: &[Opt], all: &[u8], letter: u8) -> Stop {
    if let Err(stop) = look_for_typo(options, all) {
        return stop;
    }
    let message = match letter.is_ascii() {
        true => format!("unknown switch `{}'", letter as char),
        false => format!("unknown non-ascii option in string: `-{}'", String::from_utf8_lossy(all)),
    };
    Stop::Error(message, Usage::Stderr)
}

/// `-diff3` means `--diff3`, not `-d -i -f -f -3`.
fn look_for_typo(options: &[Opt], all: &[u8]) -> Result<(), Stop> {
    let text = String::from_utf8_lossy(all);
    let is_long = options.iter().any(|o| o.long.is_some_and(|l| l.starts_with(&*text)));
    if all.len() >= 3 && (text.starts_with("no-") || is_long) {
        return Err(Stop::Error(format!("did you mean `--{text}` (with two dashes)?"), Usage::None));
    }
    Ok(())
}

/// The option that `name` is the name of or begins, and whether it is undone.
fn find_long(options: &[Opt], name: &[u8], whole: &[u8]) -> Result<(usize, bool), Stop> {
    let (name, whole) = (String::from_utf8_lossy(name), String::from_utf8_lossy(whole));
    let forms = options.iter().enumerate().filter_map(|(i, o)| o.long.map(|l| (i, l, o.can_be_undone)));
    let mut begun: Option<(usize, bool, &str)> = None;
    let mut other: Option<(usize, bool, &str)> = None;
    let mut remember = |form: (usize, bool, &'static str)| {
        // The last two of those that begin so are named in the error, as git does.
        match begun {
            Some(before) if (before.0, before.1) != (form.0, form.1) => other = Some(before),
            _ => {}
        }
        begun = Some(form);
    };
    for (i, long, can_be_undone) in forms {
        if name == long {
            return Ok((i, false));
        }
        if long.starts_with(&*name) {
            remember((i, false, long));
        }
        if can_be_undone {
            if name.strip_prefix("no-") == Some(long) {
                return Ok((i, true));
            }
            let begins_no = "no-".starts_with(&*whole);
            if begins_no || name.strip_prefix("no-").is_some_and(|n| long.starts_with(n)) {
                remember((i, true, long));
            }
        }
    }
    let form = |(_, undo, long): (usize, bool, &str)| format!("--{}{long}", if undo { "no-" } else { "" });
    match (begun, other) {
        (Some(begun), Some(other)) => {
            let message = format!("ambiguous option: {whole} (could be {} or {})", form(other), form(begun));
            Err(Stop::Error(message, Usage::Stdout))
        }
        (Some((i, undo, _)), None) => Ok((i, undo)),
        _ => Err(Stop::Error(format!("unknown option `{whole}'"), Usage::Stderr)),
    }
}

fn read_value(takes: Takes, name: &str, text: Option<OsString>) -> Result<Value, Stop> {
    let error = |what: &str| Stop::Error(format!("{name} {what}"), Usage::None);
    let text = text.ok_or_else(|| error("requires a value"))?;
    match takes {
        Takes::Number => {
            let number = text.to_str().and_then(|t| t.trim_start().parse().ok());
            number.map(Value::Number).ok_or_else(|| error("expects a numerical value"))
        }
        Takes::Text(_) | Takes::Nothing => Ok(Value::Text(text)),
    }
}

/// The usage, laid out as git lays it out.
pub fn usage(synopsis: &str, options: &[Opt]) -> String {
    const HELP_COLUMN: usize = 26;
    let mut text = format!("usage: {synopsis}\n\n");
    for option in options {
        let mut names = Vec::new();
        if let Some(short) = option.short {
            names.push(format!("-{short}"));
        }
        if let Some(long) = option.long {
            names.push(format!("--{}{long}", if option.can_be_undone { "[no-]" } else { "" }));
        }
        let value = match option.takes {
            Takes::Nothing => String::new(),
            Takes::Number => " <n>".to_owned(),
            Takes::Text(name) => format!(" <{name}>"),
        };
        let head = format!("    {}{value}", names.join(", "));
        // A help text that does not fit behind the names stands below them.
        let gap = match head.len() < HELP_COLUMN {
            true => " ".repeat(HELP_COLUMN - head.len()),
            false => format!("\n{}", " ".repeat(HELP_COLUMN)),
        };
        text.push_str(&format!("{head}{gap}{}\n", option.help));
    }
    text.push('\n');
    text
}

fn os(bytes: &[u8]) -> OsString {
    // Fails where arguments are not bytes, and there only for a part of a character.
    gix::path::from_byte_slice(bytes).map(OsString::from).unwrap_or_default()
}
