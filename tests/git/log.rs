//! `pleach log` shows what was combined in the last merge.

use tempfile::TempDir;

use crate::support::{Repo, TIDES, forked, forked_without_pleach, ours, theirs};

const FILE: &str = "src/tides.py";

fn records(repo: &Repo) -> serde_json::Value {
    serde_json::from_str(&repo.pleach(["log", "--format", "json"]).out).unwrap()
}

#[test]
fn before_any_merge_there_is_nothing_to_show() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let ran = repo.pleach(["log"]);
    assert_eq!((ran.status, &*ran.out), (Some(0), "git has not called pleach here yet\n"));
    assert_eq!(records(&repo), serde_json::Value::Null);
}

#[test]
fn a_merge_is_shown_file_by_file_and_place_by_place() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let head = repo.head();
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = records(&repo);
    assert_eq!(log["operation"]["kind"], "merge");
    assert_eq!(log["operation"]["head"], head);
    assert_eq!(log["operation"]["theirs"], "upstream");
    assert_eq!(log["operation"]["commit"], repo.ok(["rev-parse", "upstream"]).trim());
    assert_eq!(log["current"], true);
    let files = log["files"].as_array().unwrap();
    assert_eq!(files.len(), 1);
    assert_eq!(files[0]["path"], FILE);
    assert!(files[0].get("operation").is_none(), "it is said once: {log}");
    assert_eq!(files[0]["way"], "trees");
    assert_eq!(files[0]["answer"], repo.ok(["rev-parse", &format!("HEAD:{FILE}")]).trim());
    let places = files[0]["combined"].as_array().unwrap();
    assert!(places.iter().any(|p| p["line"] == 5), "the call is on line 5: {places:?}");

    let text = repo.pleach(["log"]).out;
    assert!(text.starts_with(&format!("Merge of upstream into {}\n\n{FILE}: ", &head[..10])), "{text}");
    for place in places {
        assert!(text.contains(place["what"].as_str().unwrap()) && text.contains(place["why"].as_str().unwrap()));
    }
    let markdown = repo.pleach(["log", "--format", "markdown"]).out;
    assert!(markdown.starts_with("### Merge of `upstream` into `"), "{markdown}");
    assert_eq!(markdown.matches("- [ ] line ").count(), places.len(), "{markdown}");
    assert!(!text.contains('\u{1b}') && !markdown.contains('\u{1b}'), "no colour but on a terminal");
}

#[test]
fn files_are_listed_by_their_paths_and_the_list_ends_with_what_is_to_be_done() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "ports/cuxhaven.py", "dover.py"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(paths(&repo), ["brest.py", "dover.py", "ports/cuxhaven.py"]);
    let text = repo.pleach(["log"]).out;
    let end = "\nA merge without conflicts is not a proof of meaning: review the places above and run the tests.\n";
    assert!(text.ends_with(end), "{text}");
}

#[test]
fn a_place_is_shown_as_merged() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = repo.pleach(["log"]).out;
    assert!(log.contains("`(station, unit='m', timeout=5)`\n"), "{log}");
}

#[test]
fn what_one_side_put_around_a_line_is_one_place() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["checkout", "-q", "upstream"]);
    let wrapped = "    try:\n        return fetch(station)\n    except TimeoutError:\n        return None\n";
    repo.write(FILE, TIDES.replace("    return fetch(station)\n", wrapped)).commit("Do without");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = repo.pleach(["log"]).out;
    assert_eq!(log.matches("one side put it around what the other side changed").count(), 1, "{log}");
}

#[test]
fn a_place_under_a_conflict_has_the_line_that_it_is_on() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let base = TIDES.replace("    return", "    line = station.strip()\n    return");
    repo.write(FILE, &base).commit("Strip");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write(FILE, theirs(&base).replace("    line = station.strip()\n", "")).commit("Wait, but do not strip");
    repo.ok(["checkout", "-q", "main"]);
    repo.write(FILE, ours(&base).replace("    return", "    check(line)\n    return")).commit("Check");
    repo.pleach(["install"]);
    assert_ne!(repo.run(["merge", "-q", "upstream"]).status, Some(0));
    let merged = repo.read(FILE);
    assert!(merged.contains(">>>>>>> upstream\n    return fetch(station, unit='m', timeout=5)\n"), "{merged}");
    let line = merged.lines().position(|line| line.contains("fetch(station")).unwrap() + 1;
    let log = records(&repo);
    let places = log["files"][0]["combined"].as_array().unwrap();
    assert!(places.iter().any(|p| p["line"] == line), "the call is on line {line}: {places:?}");
}

#[test]
fn a_place_that_is_long_is_cut_and_said_to_be() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let unit = format!("unit='{}'", "höhe".repeat(20));
    repo.write(FILE, ours(TIDES).replace("unit='m'", &unit)).commit("Say how high");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = repo.pleach(["log"]).out;
    assert!(log.contains("`(station, unit='höhehöhe") && log.contains("…`\n") && !log.contains(&unit), "{log}");
}

#[test]
fn what_is_no_merge_is_called_what_it_is() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let heading = |format: &str| {
        let log = repo.pleach(["log", "--format", format]).out;
        log.lines().next().unwrap_or_default().to_owned()
    };
    let short = |name: &str| repo.ok(["rev-parse", "--short=10", name]).trim().to_owned();
    let abbreviated = |name: &str| repo.ok(["rev-parse", "--short", name]).trim().to_owned();

    let head = short("HEAD");
    repo.ok(["cherry-pick", "upstream"]);
    let picked = format!("{} (Give up after five seconds)", abbreviated("upstream"));
    assert_eq!(heading("text"), format!("{picked} picked on top of {head}"));
    assert_eq!(heading("markdown"), format!("### `{picked}` picked on top of `{head}`"));

    let head = short("HEAD");
    let reverted = format!("{} (Show metres)", abbreviated("HEAD~1"));
    repo.ok(["revert", "--no-edit", "HEAD~1"]);
    assert_eq!(heading("text"), format!("{reverted} reverted on top of {head}"));

    repo.write(FILE, ours(&repo.read(FILE))).ok(["stash", "-q"]);
    repo.write(FILE, repo.read(FILE).replace("timeout=5", "timeout=5, lamp=1")).commit("Light the lamp");
    let head = short("HEAD");
    repo.ok(["stash", "pop", "-q"]);
    assert_eq!(heading("text"), format!("Stashed changes applied on top of {head}"));
}

#[test]
fn in_a_list_of_several_lines_a_place_is_where_the_entries_differ_and_told_once() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let ports = |more: &str| format!("show(\n    station,\n    level=4,\n    datum='chart',\n{more})\n");
    repo.write(FILE, ports("")).commit("Show a station");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write(FILE, ports("    timeout=5,\n")).commit("Wait");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write(FILE, ports("    unit='m',\n")).commit("Show metres");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = repo.pleach(["log"]).out;
    let told = "1 place combined\n      5  argument list, from `unit='m',` on\n         the changes";
    assert!(log.contains(told), "{log}");
}

#[test]
fn of_a_place_that_is_too_short_to_tell_the_line_is_shown_as_merged() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let text = |parameters: &str| format!("def tide({parameters}):\n    return 4\n");
    repo.write(FILE, text("a")).commit("Tell the tide");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write(FILE, text("")).commit("Do without");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write(FILE, text("a, b")).commit("Take another");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.read(FILE), text("b"));
    let log = repo.pleach(["log"]).out;
    assert!(log.contains("      1  parameters `def tide(b)`\n"), "{log}");
}

#[test]
fn of_blank_lines_that_both_sides_put_in_nothing_is_said_to_be_taken_out() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    let text =
        |gap: &str| format!("def tide():\n    \"\"\"The tide.\n{gap}    Of a station.\n    \"\"\"\n    return 4\n");
    repo.write(FILE, text("")).commit("Tell the tide");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write(FILE, text("    \n")).commit("Leave a line blank");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write(FILE, text("\n")).commit("Leave a line blank");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    let log = repo.pleach(["log"]).out;
    assert!(
        log.contains("      3  blank lines\n         both sides made this change, laid out in two ways\n"),
        "{log}"
    );
}

#[test]
fn what_was_pulled_is_called_by_its_commit_and_by_what_that_is_known_as() {
    let dir = TempDir::new().unwrap();
    let upstream = forked_without_pleach(&dir.path().join("there"));
    let fork = Repo::clone_of(&upstream, dir.path().join("here"));
    fork.install().ok(["pull", "-q", "--no-rebase", "--no-edit", "origin", "upstream"]);
    let (theirs, ours) = (fork.ok(["rev-parse", "HEAD^2"]), fork.ok(["rev-parse", "HEAD^1"]));
    let heading = || fork.pleach(["log"]).out.lines().next().unwrap().to_owned();
    let (theirs, ours) = (&theirs[..10], &ours[..10]);
    assert_eq!(heading(), format!("Merge of origin/upstream ({theirs}) into {ours}"));
    let markdown = fork.pleach(["log", "--format", "markdown"]).out;
    assert!(
        markdown.starts_with(&format!("### Merge of `origin/upstream` (`{theirs}`) into `{ours}`\n")),
        "{markdown}"
    );
    fork.ok(["tag", "v1.5", "HEAD^2"]);
    assert_eq!(heading(), format!("Merge of v1.5 ({theirs}) into {ours}"));
    fork.ok(["tag", "-d", "v1.5"]);
    fork.ok(["update-ref", "refs/remotes/other/main", "HEAD^2"]);
    assert_eq!(heading(), format!("Merge of {theirs} into {ours}"), "which of the two it was, nobody knows");
}

#[test]
fn it_can_be_asked_for_from_a_subdirectory() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.pleach_in("src", ["log"]), repo.pleach(["log"]));
}

#[test]
fn the_same_merge_done_again_is_the_same_record_and_shown_once() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let first = repo.pleach(["log"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(repo.pleach(["log"]), first);
    let written = repo.read(".git/pleach/log.jsonl");
    let lines: Vec<_> = written.lines().collect();
    assert_eq!(lines.len(), 2);
    assert_eq!(lines[0], lines[1], "nothing in a record depends on the time");
}

#[test]
fn only_the_last_merge_is_shown() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    repo.write("ports.py", TIDES).commit("Add ports");
    repo.ok(["checkout", "-q", "-b", "next"]);
    repo.write("ports.py", theirs(TIDES)).commit("Wait less for ports");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("ports.py", ours(TIDES)).commit("Show metres of ports");
    let text = repo.pleach(["log"]).out;
    assert!(text.contains("HEAD has moved on since.\n") && text.contains(FILE), "{text}");
    repo.ok(["merge", "-q", "--no-edit", "next"]);
    let text = repo.pleach(["log"]).out;
    assert!(text.contains("ports.py") && !text.contains(FILE) && !text.contains("moved on"), "{text}");
}

#[test]
fn a_rebase_of_several_commits_is_one_merge() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    repo.install().write(FILE, TIDES).write("ports.py", TIDES).commit("Show the tide and ports");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write(FILE, theirs(TIDES)).write("ports.py", theirs(TIDES)).commit("Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    repo.write(FILE, ours(TIDES)).commit("Show metres").write("ports.py", ours(TIDES)).commit("Show metres of ports");
    let before = repo.head();
    repo.ok(["rebase", "-q", "upstream"]);
    let log = records(&repo);
    assert_eq!(log["operation"]["kind"], "rebase");
    assert_eq!(log["operation"]["from"], before);
    assert_eq!(log["operation"]["onto"], repo.ok(["rev-parse", "upstream"]).trim());
    let paths: Vec<_> = log["files"].as_array().unwrap().iter().map(|f| f["path"].as_str().unwrap()).collect();
    assert_eq!(paths, [FILE, "ports.py"]);
    let text = repo.pleach(["log"]).out;
    assert!(text.starts_with(&format!("Rebase of {} onto ", &before[..10])));
    // Each commit is told of by its name.
    let (first, second) =
        (text.find(" (Show metres)\n\nsrc/tides.py: "), text.find(" (Show metres of ports)\n\nports.py: "));
    assert!(first.is_some() && first < second, "{text}");
    let markdown = repo.pleach(["log", "--format", "markdown"]).out;
    assert!(markdown.contains(" (Show metres of ports)`\n\n`ports.py`: 1 place combined\n\n- [ ] line "), "{markdown}");
}

#[test]
fn a_rebase_by_patches_is_one_operation_too_whether_it_stops_or_not() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py", "emden.py"]);
    repo.ok(["checkout", "-q", "-b", "topic", "main~1"]);
    for path in ["brest.py", "dover.py", "emden.py"] {
        repo.write(path, ours(TIDES)).commit(&format!("Show metres in {path}"));
    }
    let before = repo.head();
    repo.ok(["rebase", "-q", "--apply", "upstream"]);
    let log = records(&repo);
    assert_eq!(paths(&repo), ["brest.py", "dover.py", "emden.py"]);
    assert_eq!(log["operation"]["kind"], "rebase");
    assert_eq!(log["operation"]["from"], before);
    assert_eq!(log["operation"]["onto"], repo.ok(["rev-parse", "upstream"]).trim());

    // What it does before it stops and behind that belong together.
    repo.ok(["reset", "-q", "--hard", "main~1"]);
    repo.write("brest.py", ours(TIDES)).commit("Show metres in Brest");
    repo.write("dover.py", TIDES.replace("fetch(station", "fetch(station, timeout=3")).commit("Wait less in Dover");
    repo.write("emden.py", ours(TIDES)).commit("Show metres in Emden");
    assert_ne!(repo.run(["-c", "rebase.backend=apply", "rebase", "-q", "upstream"]).status, Some(0));
    assert_eq!(paths(&repo), ["brest.py", "dover.py"]);
    repo.write("dover.py", TIDES).ok(["add", "dover.py"]);
    repo.ok(["rebase", "--continue"]);
    assert_eq!(paths(&repo), ["brest.py", "dover.py", "emden.py"]);
}

#[test]
fn after_a_rebase_head_has_not_moved_on_though_its_last_commits_needed_no_pleach() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "dover.py"]);
    repo.ok(["checkout", "-q", "-b", "topic", "main~1"]);
    repo.write("brest.py", ours(TIDES)).commit("Show metres in Brest");
    repo.write("notes.txt", "metres\n").commit("Note it").write("notes.txt", "metres, feet\n").commit("Note more");
    let before = repo.head();
    let moved_on = || repo.pleach(["log"]).out.contains("\nHEAD has moved on since.\n");
    repo.ok(["rebase", "-q", "upstream"]);
    assert_eq!((paths(&repo), moved_on()), (vec!["brest.py".to_owned()], false));
    repo.write("notes.txt", "metres, feet, fathoms\n").commit("Note even more");
    assert!(moved_on());

    repo.ok(["checkout", "-q", "upstream"]);
    repo.ok(["cherry-pick", &format!("main~1..{before}")]);
    assert_eq!((paths(&repo), moved_on()), (vec!["brest.py".to_owned()], false));
}

#[test]
fn conflicts_that_are_left_are_counted() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.write(FILE, ours(&theirs(TIDES).replace("=5", "=3"))).commit("Wait less");
    assert_eq!(repo.run(["merge", "upstream"]).status, Some(1));
    let log = records(&repo);
    assert_eq!(log["files"][0]["conflicts"], 1);
    assert_eq!(log["current"], true);
}

#[test]
fn a_damaged_line_hides_no_other() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let before = repo.pleach(["log"]);
    let text = repo.read(".git/pleach/log.jsonl");
    repo.write(".git/pleach/log.jsonl", format!("{{\"future\": 2}}\n{text}{}", &text[..40]));
    assert_eq!(repo.pleach(["log"]), before);
}

#[test]
fn a_record_that_cannot_be_read_is_an_error_that_names_it() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    std::fs::create_dir_all(repo.dir.join(".git/pleach/log.jsonl")).unwrap();
    let ran = repo.pleach(["log"]);
    let file = repo.dir.join(".git/pleach/log.jsonl");
    assert_eq!(ran.status, Some(2));
    assert_eq!(ran.err, format!("pleach: could not read the record, {}: Is a directory\n", file.display()));
}

#[test]
fn the_record_does_not_grow_without_end() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let old = "{\"an older version's record\": 0}\n".repeat(40_000);
    repo.write(".git/pleach/log.jsonl", &old);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    let text = repo.read(".git/pleach/log.jsonl");
    assert!(text.len() < old.len() * 6 / 10 && text.starts_with("{\"an"), "{}", text.len());
    assert!(repo.pleach(["log"]).out.contains(FILE));
}

#[test]
fn a_file_merged_as_syntax_or_with_conflicts_left_is_not_said_to_be_as_git_would_have_it() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    // Git's conflict takes in the line beside, which only one side changed; nothing is combined.
    let table = "[gauge]\nport = 1\nunit = \"m\"\n";
    repo.write("gauge.toml", table).write("notes.toml", "[a]\nx = 1\n").commit("Set the gauge");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    repo.write("gauge.toml", table.replace('1', "2")).write("notes.toml", "[a]\nx = 2\n").commit("Use port 2");
    repo.ok(["checkout", "-q", "main"]);
    repo.write("gauge.toml", table.replace('1', "3")).write("notes.toml", "[a]\nx = 3\n").commit("Use port 3");
    repo.install();
    assert_eq!(repo.run(["merge", "-q", "upstream"]).status, Some(1));
    let (log, text) = (records(&repo), repo.pleach(["log"]).out);
    for file in log["files"].as_array().unwrap() {
        let path = file["path"].as_str().unwrap();
        assert!(text.contains(&format!("\n{path}: merged as ")), "{text}");
        assert!(text.lines().any(|l| l.starts_with(path) && l.ends_with(", 1 conflict left to a person")), "{text}");
        assert_eq!(file["combined"].as_array().unwrap().len(), 0, "nothing but one value was changed: {log}");
    }
    assert!(!text.contains("as git would have"), "{text}");
}

#[test]
fn what_rerere_settles_anew_does_not_take_the_place_of_the_merge() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    repo.ok(["config", "rerere.enabled", "true"]);
    repo.write(FILE, ours(&theirs(TIDES).replace("=5", "=3"))).commit("Wait less");
    repo.run(["merge", "-q", "upstream"]);
    repo.write(FILE, theirs(TIDES)).commit("Merge");
    let first = repo.pleach(["log"]);
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    assert!(repo.run(["merge", "upstream"]).err.contains("previous resolution"));
    assert_eq!(repo.read(FILE), theirs(TIDES));
    assert_eq!(repo.pleach(["log"]), first);
    assert!(first.out.starts_with("Merge of upstream into "), "{first:?}");
}

#[test]
fn to_look_at_old_merges_leaves_no_record_and_asks_for_no_review() {
    let dir = TempDir::new().unwrap();
    let repo = forked(dir.path());
    let ran = repo.run(["merge", "--no-edit", "upstream"]);
    assert!(ran.err.contains("1 place combined as syntax; review it"), "{ran:?}");
    let before = repo.pleach(["log"]);
    let ran = repo.run(["show", "--format=", "--remerge-diff"]);
    // Git has it since 2.35.
    if ran.status == Some(0) {
        assert_eq!((&*ran.out, &*ran.err), ("", ""), "it is what pleach made of it");
        assert_eq!(repo.pleach(["log"]), before);
        repo.write(FILE, format!("# Tides.\n{}", repo.read(FILE))).ok(["commit", "-q", "--amend", "--no-edit", FILE]);
        let ran = repo.run(["show", "--format=", "--remerge-diff"]);
        let changed: Vec<&str> = ran.out.lines().filter(|line| line.starts_with(['+', '-'])).collect();
        assert_eq!(changed, [&format!("--- a/{FILE}"), &format!("+++ b/{FILE}"), "+# Tides."], "{ran:?}");
    }
}

#[test]
fn of_the_operation_that_is_running_nothing_is_dropped_from_the_record() {
    let dir = TempDir::new().unwrap();
    let repo = Repo::init(dir.path().join("fork"));
    let stations: Vec<String> = (0..40).map(|i| format!("station_{i:02}.py")).collect();
    let all = |change: fn(&str) -> String, why: &str| {
        for path in &stations {
            repo.write(path, change(TIDES));
        }
        repo.commit(why);
    };
    all(str::to_owned, "Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    all(theirs, "Give up after five seconds");
    repo.ok(["checkout", "-q", "main"]);
    all(ours, "Show metres");
    // Almost full: it overflows in the middle of the merge.
    let old = "{\"an older version's record\": 0}\n".repeat(((1 << 20) - 10_000) / 33);
    repo.install().write(".git/pleach/log.jsonl", &old);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert!(repo.read(".git/pleach/log.jsonl").len() < old.len() * 6 / 10);
    assert_eq!(records(&repo)["files"].as_array().unwrap().len(), stations.len());

    // And where the merge alone is longer than the file should be.
    repo.ok(["reset", "-q", "--hard", "HEAD~1"]);
    repo.ok(["merge", "-q", "--no-commit", "upstream"]);
    let once = repo.read(".git/pleach/log.jsonl");
    let once: String = once.lines().filter(|l| l.contains("station_")).map(|l| format!("{l}\n")).collect();
    repo.write(".git/pleach/log.jsonl", once.repeat((1 << 20) / once.len() + 1));
    repo.ok(["reset", "-q", "--hard", "HEAD"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert!(repo.read(".git/pleach/log.jsonl").len() > 1 << 20);
    assert_eq!(records(&repo)["files"].as_array().unwrap().len(), stations.len());
}

/// Files of one call each, which both sides change, in a commit for each file on `upstream`.
pub fn with_stations(dir: &std::path::Path, stations: &[&str]) -> Repo {
    let repo = Repo::init(dir.join("fork"));
    for path in stations {
        repo.write(path, TIDES);
    }
    repo.install().commit("Show the tide");
    repo.ok(["checkout", "-q", "-b", "upstream"]);
    for path in stations {
        repo.write(path, theirs(TIDES)).commit(&format!("Wait less in {path}"));
    }
    repo.ok(["checkout", "-q", "main"]);
    for path in stations {
        repo.write(path, ours(TIDES));
    }
    repo.commit("Show metres");
    repo
}

pub fn paths(repo: &Repo) -> Vec<String> {
    let log = records(repo);
    let files = log["files"].as_array().cloned().unwrap_or_default();
    let mut paths: Vec<_> = files.iter().map(|file| file["path"].as_str().unwrap().to_owned()).collect();
    paths.sort();
    paths
}

#[test]
fn a_renamed_file_with_brackets_in_its_name_is_of_the_same_merge() {
    let dir = TempDir::new().unwrap();
    let repo = with_stations(dir.path(), &["brest.py", "tide (1).py"]);
    repo.ok(["checkout", "-q", "upstream"]);
    repo.ok(["mv", "tide (1).py", "tide (2).py"]);
    repo.commit("Number it anew");
    repo.ok(["checkout", "-q", "main"]);
    repo.ok(["merge", "-q", "--no-edit", "upstream"]);
    assert_eq!(paths(&repo), ["brest.py", "tide (2).py"]);
}

#[test]
fn code_with_backticks_is_still_code_in_markdown() {
    let dir = TempDir::new().unwrap();
    let repo = forked_without_pleach(dir.path());
    repo.write(FILE, ours(TIDES).replace("'m'", "'`<b>'")).commit("Show it in bold");
    repo.install().ok(["merge", "-q", "--no-edit", "upstream"]);
    let markdown = repo.pleach(["log", "--format", "markdown"]).out;
    assert!(markdown.contains("argument list `` (station, unit='`<b>', timeout=5) ``; "), "{markdown}");
}
