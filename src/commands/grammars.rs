use std::process::ExitCode;

use serde::Serialize;

use crate::commands::Format;
use crate::git::attributes;
use crate::grammar::{self, Language};
use crate::report::{Table, json, print};

/// Show which languages, file names and constructs are built in
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status:\n  0  shown\n  2  an error, such as a language that is not built in")]
pub struct Grammars {
    /// Show the constructs of this language only
    language: Option<String>,
    /// For people or for programs
    #[arg(long, value_enum, default_value_t)]
    format: Format,
}

#[derive(Serialize)]
struct Shown<'a> {
    language: &'a str,
    files: Vec<String>,
    interpreters: &'a [String],
    /// Lists in which only membership means something.
    free_lists: Vec<&'a str>,
    /// Lists in which position means something.
    ordered_lists: Vec<&'a str>,
    /// Entries known by a name or key of their own.
    keyed_entries: Vec<&'a str>,
}

impl<'a> Shown<'a> {
    fn new(language: &'a Language) -> Shown<'a> {
        let d = &language.descriptor;
        let lists = |free: bool| {
            let mut kinds: Vec<_> =
                d.list.iter().filter(|l| l.free == free).flat_map(|l| l.kinds.iter().map(String::as_str)).collect();
            kinds.sort_unstable();
            kinds.dedup();
            kinds
        };
        let mut keyed: Vec<_> = d.entry.iter().filter(|e| !e.key.is_empty()).map(|e| e.kind.as_str()).collect();
        keyed.sort_unstable();
        keyed.dedup();
        Shown {
            language: &d.name,
            files: attributes::patterns_of(language),
            interpreters: &d.interpreters,
            free_lists: lists(true),
            ordered_lists: lists(false),
            keyed_entries: keyed,
        }
    }
}

impl Grammars {
    /// Prints the table, or one language in full.
    pub fn run(&self) -> anyhow::Result<ExitCode> {
        let languages: Vec<&Language> = match &self.language {
            None => grammar::all().collect(),
            Some(name) => vec![grammar::by_name(name).ok_or_else(|| {
                let all: Vec<_> = grammar::all().map(Language::name).collect();
                anyhow::anyhow!("no language named {name}; built in are {}", all.join(", "))
            })?],
        };
        let shown: Vec<_> = languages.into_iter().map(Shown::new).collect();
        match self.format {
            Format::Json => print(&json(&shown)),
            Format::Text if self.language.is_some() => shown.iter().for_each(|l| print(&in_full(l))),
            Format::Text => {
                let mut table = Table::new(["language", "files", "first line"]);
                for l in &shown {
                    table.row([l.language.to_owned(), l.files.join(" "), l.interpreters.join(" ")]);
                }
                print(&table.to_string());
                print("\n`pleach grammars LANGUAGE` shows a language's constructs, by the grammar's names.\n");
            }
        }
        Ok(ExitCode::SUCCESS)
    }
}

fn in_full(l: &Shown) -> String {
    let mut table = Table::new(["construct", "grammar's names"]);
    table.row(["lists, order free".to_owned(), l.free_lists.join(" ")]);
    table.row(["lists, order kept".to_owned(), l.ordered_lists.join(" ")]);
    table.row(["entries with a key".to_owned(), l.keyed_entries.join(" ")]);
    format!("{}: {}\n\n{table}", l.language, l.files.join(" "))
}
