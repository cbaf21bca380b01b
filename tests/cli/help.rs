//! What the command line says of itself: help, completions and manual, from one definition.

use std::fs;

use tempfile::TempDir;

use crate::support::{PLEACH, program, run};

/// The commands that help lists.
fn commands() -> Vec<String> {
    let dir = TempDir::new().unwrap();
    let help = run(PLEACH, dir.path(), ["--help"]);
    assert_eq!(help.status, Some(0));
    let (_, list) = help.out.split_once("Commands:\n").unwrap();
    let lines = list.lines().take_while(|l| !l.is_empty());
    let names = lines.filter_map(|l| l.strip_prefix("  ")?.split(' ').next()).filter(|n| !n.is_empty() && *n != "help");
    names.map(str::to_owned).collect()
}

#[test]
fn help_names_every_command_and_every_command_has_help_with_its_exit_statuses() {
    let dir = TempDir::new().unwrap();
    let all = commands();
    for known in
        ["install", "uninstall", "doctor", "forecast", "retry", "log", "replay", "grammars", "driver", "merge-file"]
    {
        assert!(all.iter().any(|c| c == known), "{known} in {all:?}");
    }
    for command in all {
        let ran = run(PLEACH, dir.path(), [&*command, "--help"]);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        assert!(ran.out.contains("Exit status:\n  0 "), "{ran:?}");
    }
}

#[test]
fn the_version_is_the_packages() {
    let dir = TempDir::new().unwrap();
    let ran = run(PLEACH, dir.path(), ["--version"]);
    assert_eq!(ran.out, format!("pleach {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn wrong_usage_is_an_error_of_one_kind() {
    let dir = TempDir::new().unwrap();
    for args in [
        &[][..],
        &["prune"],
        &["install", "--everywhere"],
        &["install", "--global", "--shared"],
        &["log", "--format", "xml"],
    ] {
        let ran = run(PLEACH, dir.path(), args);
        assert_eq!(ran.status, Some(2), "{ran:?}");
        assert_eq!(ran.out, "");
    }
}

#[test]
fn completions_for_every_shell_know_every_command() {
    let dir = TempDir::new().unwrap();
    for shell in ["bash", "zsh", "fish"] {
        let ran = run(PLEACH, dir.path(), ["completions", shell]);
        assert_eq!(ran.status, Some(0), "{ran:?}");
        for command in commands() {
            assert!(ran.out.contains(&command), "{command} in {shell}");
        }
        assert!(ran.out.contains("zdiff3"), "the options of merge-file in {shell}");
    }
}

#[cfg(unix)]
#[test]
fn bash_completes_a_command_that_has_been_begun() {
    let dir = TempDir::new().unwrap();
    let script = run(PLEACH, dir.path(), ["completions", "bash"]).out;
    fs::write(dir.path().join("pleach.bash"), script).unwrap();
    let complete =
        "set -e; . ./pleach.bash; COMP_WORDS=(pleach un); COMP_CWORD=1; _pleach pleach un pleach; echo ${COMPREPLY[@]}";
    let ran = run("bash", dir.path(), ["-c", complete]);
    assert_eq!(ran.out, "uninstall\n", "{ran:?}");
}

/// Whether there is such a shell here; if not, what is tried in it is skipped.
#[cfg(unix)]
fn there_is(shell: &str) -> bool {
    let found = std::process::Command::new(shell).args(["-c", "exit"]).status().is_ok_and(|s| s.success());
    if !found {
        eprintln!("skipped: there is no {shell} here");
    }
    found
}

#[cfg(unix)]
#[test]
fn fish_completes_commands_options_and_values() {
    if !there_is("fish") {
        return;
    }
    let dir = TempDir::new().unwrap();
    fs::write(dir.path().join("pleach.fish"), run(PLEACH, dir.path(), ["completions", "fish"]).out).unwrap();
    for (begun, wanted) in [
        ("pleach un", "uninstall"),
        ("pleach install --gl", "--global"),
        ("pleach log --format mark", "markdown"),
        ("pleach completions zs", "zsh"),
    ] {
        let complete = format!("source pleach.fish; complete -C '{begun}'");
        let ran = run("fish", dir.path(), ["-c", &complete]);
        assert!(ran.out.starts_with(wanted), "{begun}: {ran:?}");
        assert_eq!(ran.err, "");
    }
}

#[cfg(unix)]
#[test]
fn zsh_finds_the_completions_in_a_directory_of_functions() {
    if !there_is("zsh") {
        return;
    }
    let dir = TempDir::new().unwrap();
    fs::write(dir.path().join("_pleach"), run(PLEACH, dir.path(), ["completions", "zsh"]).out).unwrap();
    let complete = "fpath=($PWD $fpath); autoload -U compinit; compinit -D -u; autoload +X _pleach; \
                    echo $_comps[pleach]";
    let ran = run("zsh", dir.path(), ["-f", "-c", complete]);
    assert_eq!((&*ran.out, &*ran.err), ("_pleach\n", ""));
}

#[test]
fn the_manual_says_the_exit_statuses_under_their_heading_and_refers_to_no_page_that_is_not() {
    let dir = TempDir::new().unwrap();
    for command in commands() {
        let page = run(PLEACH, dir.path(), ["man", &command]).out;
        assert!(page.contains("\n.SH \"EXIT STATUS\"\n") && !page.contains("EXTRA"), "{page}");
    }
    assert!(!run(PLEACH, dir.path(), ["man"]).out.contains("pleach\\-help"));
}

#[test]
fn the_manual_has_a_page_for_pleach_and_one_for_each_command() {
    let dir = TempDir::new().unwrap();
    let page = run(PLEACH, dir.path(), ["man"]).out;
    assert!(page.contains(".TH pleach 1") && page.contains("pleach\\-uninstall"), "{page}");
    let page = run(PLEACH, dir.path(), ["man", "install"]).out;
    assert!(page.contains(".TH pleach\\-install 1") || page.contains(".TH pleach-install 1"), "{page}");
    assert!(page.contains("common") && page.contains("ancestors"), "merge.pleach.recursive is explained: {page}");
    assert_eq!(run(PLEACH, dir.path(), ["man", "prune"]).status, Some(2));

    run(PLEACH, dir.path(), ["man", "--dir", "."]);
    let mut pages: Vec<_> =
        fs::read_dir(dir.path()).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
    pages.sort();
    let mut wanted: Vec<_> =
        commands().iter().map(|c| format!("pleach-{c}.1")).chain(["pleach.1".to_owned()]).collect();
    wanted.sort();
    assert_eq!(pages, wanted);
    assert_eq!(run(PLEACH, dir.path(), ["man", "--dir", "nowhere"]).status, Some(2));
}

#[test]
fn grammars_are_listed_for_people_and_programs() {
    let dir = TempDir::new().unwrap();
    let text = run(PLEACH, dir.path(), ["grammars"]).out;
    assert!(text.starts_with("language  files"), "{text}");
    assert!(text.lines().any(|l| l.starts_with("Python") && l.contains("*.py")), "{text}");
    let json = run(PLEACH, dir.path(), ["grammars", "--format", "json"]).out;
    let languages: serde_json::Value = serde_json::from_str(&json).unwrap();
    let python = languages.as_array().unwrap().iter().find(|l| l["language"] == "Python").unwrap();
    assert!(python["files"].as_array().unwrap().iter().any(|f| f == "*.py"));
    let one = run(PLEACH, dir.path(), ["grammars", "python"]).out;
    assert!(one.starts_with("Python: *.py") && one.contains("argument_list"), "{one}");
    let none = run(PLEACH, dir.path(), ["grammars", "forth"]);
    assert_eq!(none.status, Some(2));
    assert!(none.err.starts_with("pleach: no language named forth; built in are "), "{none:?}");
}

#[cfg(target_os = "linux")]
#[test]
fn headings_are_bold_on_a_terminal_unless_colour_is_not_wanted() {
    let dir = TempDir::new().unwrap();
    let on_terminal = |no_color: &str| {
        let command = format!("{PLEACH} grammars");
        let mut script = program("script", dir.path());
        script.args(["-qec", &command, "/dev/null"]).env("TERM", "xterm").env("NO_COLOR", no_color);
        script.output().map(|o| String::from_utf8_lossy(&o.stdout).into_owned())
    };
    let Ok(text) = on_terminal("") else {
        eprintln!("skipped: there is no script(1) here to make a terminal");
        return;
    };
    assert!(text.starts_with("\u{1b}[1mlanguage"), "{text:?}");
    assert!(!on_terminal("1").unwrap().contains('\u{1b}'));
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let dir = TempDir::new().unwrap();
    let ran = run("sh", dir.path(), ["-c", &format!("{{ '{PLEACH}' man; echo $? >&2; }} | true")]);
    assert_eq!(ran.err, "0\n");
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_cannot_be_written_is_an_error() {
    let dir = TempDir::new().unwrap();
    for command in ["help", "--help", "man", "grammars", "completions bash", "demo", "grammars --format json"] {
        let ran = run("sh", dir.path(), ["-c", &format!("'{PLEACH}' {command} > /dev/full")]);
        assert_eq!(ran.status, Some(2), "{command}: {ran:?}");
        assert_eq!(ran.err, "pleach: could not write the output: No space left on device\n", "{command}");
    }
    let ran = run("sh", dir.path(), ["-c", &format!("'{PLEACH}' merge-file -h > /dev/full")]);
    assert_eq!(ran.status, Some(129));
}

/// A driver that ended otherwise would have git take its answer for another one.
#[cfg(target_os = "linux")]
#[test]
fn an_error_that_cannot_be_told_has_its_exit_status_all_the_same() {
    let dir = TempDir::new().unwrap();
    for file in ["base.py", "ours.py"] {
        fs::write(dir.path().join(file), "tide = 1\n").unwrap();
    }
    for (command, status) in [
        ("driver base.py ours.py nowhere.py 7 tide.py", 129),
        ("merge-file ours.py base.py nowhere.py", 255),
        ("merge-file --bogus", 129),
        ("merge-file", 129),
        ("log", 2),
        ("prune", 2),
    ] {
        let ran = run("sh", dir.path(), ["-c", &format!("'{PLEACH}' {command} 2> /dev/full")]);
        assert_eq!(ran.status, Some(status), "{command}");
    }
}
