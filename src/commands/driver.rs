use std::ffi::OsString;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;

use anyhow::Context;

use crate::git::protocol::{Call, Outcome};
use crate::git::record::Record;
use crate::git::{Config, Place, attributes, plain, replace_passing};
use crate::line::{Algorithm, Level};
use crate::report::{count, shown, tell};
use crate::{Answer, Kept, Settings, Versions, Way, line};

/// Answers one call of git's.
pub fn run(args: &[OsString]) -> ExitCode {
    // Git would take the exit status of a panic for so many conflicts, and our version for the answer.
    let answered = catch_unwind(|| answer(args)).unwrap_or_else(|_| Err(anyhow::anyhow!("a bug in pleach")));
    let outcome = answered.unwrap_or_else(|e| {
        tell(&format!("pleach: {e:#}; nothing was written\n"));
        Outcome::Failed
    });
    outcome.status().into()
}

fn answer(args: &[OsString]) -> anyhow::Result<Outcome> {
    let call = Call::from_args(args)?;
    let place = Place::find();
    let config = place.as_ref().map(Config::read);
    let texts =
        Versions { base: read(&call.files.base)?, ours: read(&call.files.ours)?, theirs: read(&call.files.theirs)? };
    let texts = texts.as_ref().map(Vec::as_slice);

    let mut settings = Settings::default();
    settings.line.algorithm = Algorithm::Histogram;
    settings.line.level = Level::Zealous;
    settings.line.marker_size = call.marker_size;
    settings.line.labels = call.labels.clone();
    if let Some(config) = &config {
        // Git has complained about a bad value before it called us.
        let _ = config.apply(&mut settings);
        super::complain(config);
    }
    let path = call.path.as_deref().unwrap_or_default();
    let language = attributes::language(place.as_ref().zip(config.as_ref()), path, texts.ours);

    let binary = [texts.base, texts.ours, texts.theirs].into_iter().any(line::looks_binary);
    let answer = if binary { keep(texts.ours) } else { super::merge_and_say(texts, path, language, &settings) };
    if answer.text != texts.ours {
        replace_passing(&call.files.ours, &answer.text)?;
    }

    // The answer stands from here on; nothing below may take it back.
    let record = || {
        let place = place.as_ref().filter(|_| call.is_of_an_operation())?;
        Record::new(place, path, &call.labels, &answer).append(place).ok()
    };
    let recorded = matches!(catch_unwind(AssertUnwindSafe(record)), Ok(Some(())));
    // What was merged long ago is not to be reviewed anew.
    if !call.only_looks() {
        tell(&told(path, &answer, recorded));
    }
    Ok(if answer.conflicts == 0 { Outcome::Merged } else { Outcome::Conflicts })
}

/// What git answers for binary files.
fn keep(ours: &[u8]) -> Answer {
    let notes = vec!["binary, so our version is kept".to_owned()];
    Answer { text: ours.to_vec(), conflicts: 1, way: Way::Lines, notes, combined: Vec::new(), kept: Vec::new() }
}

fn read(path: &std::path::Path) -> anyhow::Result<Vec<u8>> {
    fs::read(path).map_err(|e| anyhow::anyhow!(plain(&e))).with_context(|| format!("could not read {}", path.display()))
}

/// One line for each thing that a person should know. Git shows it among its own messages.
fn told(path: &[u8], answer: &Answer, recorded: bool) -> String {
    let path = shown(path);
    let log = if recorded { " (pleach log)" } else { "" };
    let mut text = String::new();
    let mut line = |words: &str| text.push_str(&format!("pleach: {path}: {words}\n"));
    for note in &answer.notes {
        line(note);
    }
    for Kept { line: at, what, .. } in &answer.kept {
        line(&format!("conflict at line {at}: {what}{log}"));
    }
    let places = answer.combined.len();
    if answer.way == Way::Trees && places > 0 {
        let them = if places == 1 { "it" } else { "them" };
        line(&format!("{} combined as syntax; review {them}{log} and run the tests", count(places, "place")));
    }
    text
}
