//! `pleach log` counts lines in the files as they are: who reads it looks there.

use tempfile::TempDir;

use crate::support::{Repo, TIDES, forked_without_pleach, ours, theirs};

const FILE: &str = "src/tides.py";

/// A fork and a release that change one call alike well, and disagree about a line above it.
fn in_dispute_above(dir: &std::path::Path, end: &str) -> Repo {
    let repo = forked_without_pleach(dir);
    let with = |n: u8, text: &str| text.replace("\n\n\ndef", &format!("\n\nLIMIT = {n}\n\n\ndef")).replace('\n', end);
    repo.ok(["checkout", "-q", "main~1"]);
    repo.write(FILE, with(4, TIDES)).commit("Limit it");
    repo.ok(["checkout", "-q", "-B", "upstream"]);
    repo.write(FILE, with(5, &theirs(TIDES))).commit("Limit it to 5");
    repo.ok(["checkout", "-q", "-B", "main", "HEAD~1"]);
    repo.write(FILE, with(6, &ours(TIDES))).commit("Limit it to 6");
    repo.install();
    repo
}

/// The line of the only combined place, as all three forms of the log tell it.
fn line(repo: &Repo) -> usize {
    let log: serde_json::Value = serde_json::from_str(&repo.pleach(["log", "--format", "json"]).out).unwrap();
    let places = log["files"][0]["combined"].as_array().unwrap();
    assert_eq!(places.len(), 1, "{log}");
    let line = places[0]["line"].as_u64().unwrap();
    let text = repo.pleach(["log"]).out;
    assert!(text.contains(&format!("\n  {line:>5}  argument list `(station, ")), "{text}");
    let markdown = repo.pleach(["log", "--format", "markdown"]).out;
    assert!(markdown.contains(&format!("\n- [ ] line {line}: argument list `(station, ")), "{markdown}");
    line.try_into().unwrap()
}

/// The line, from 1, on which the call stands in the worktree.
fn there(repo: &Repo) -> usize {
    repo.read(FILE).lines().position(|line| line.contains("fetch(station, ")).unwrap() + 1
}

/// Keeps what ours has in every conflict, and puts some lines above it.
fn settle(repo: &Repo, above: &str) {
    let text = repo.read(FILE);
    let (before, rest) = text.split_once("<<<<<<< ").unwrap();
    let (half, rest) = rest.split_once("=======").unwrap();
    let half = half.split_once('\n').unwrap().1;
    let after = rest.split_once(">>>>>>> ").unwrap().1.split_once('\n').unwrap().1;
    repo.write(FILE, format!("{above}{before}{half}{after}"));
}

#[test]
fn once_a_conflict_above_is_settled_a_place_is_on_the_line_where_it_is_then() {
    for end in ["\n", "\r\n"] {
        let dir = TempDir::new().unwrap();
        let repo = in_dispute_above(dir.path(), end);
        assert_eq!(repo.run(["merge", "-q", "upstream"]).status, Some(1));
        assert_eq!((line(&repo), there(&repo)), (11, 11));
        settle(&repo, "");
        assert_eq!((line(&repo), there(&repo)), (7, 7), "settled");
        repo.commit("Sync");
        assert_eq!(line(&repo), 7, "committed");
        repo.write(FILE, format!("# Tides.{end}{}", repo.read(FILE))).commit("Say what it is");
        assert_eq!((line(&repo), there(&repo)), (8, 8), "changed since");
    }
}

#[test]
fn a_place_behind_a_long_half_of_a_conflict_that_was_dropped_is_where_it_is_then() {
    let dir = TempDir::new().unwrap();
    let repo = in_dispute_above(dir.path(), "\n");
    repo.ok(["checkout", "-q", "upstream"]);
    let many: String = (0..40).map(|n| format!("LIMIT_{n} = {n}\n")).collect();
    repo.write(FILE, repo.read(FILE).replace("LIMIT = 5\n", &many)).commit("Limit it in many ways");
    repo.ok(["checkout", "-q", "main"]);
    assert_eq!(repo.run(["merge", "-q", "upstream"]).status, Some(1));
    assert_eq!(line(&repo), there(&repo));
    settle(&repo, "");
    assert_eq!((line(&repo), there(&repo)), (7, 7));
}

#[test]
fn a_place_of_an_early_commit_of_a_rebase_is_where_a_later_one_left_it() {
    let dir = TempDir::new().unwrap();
    let repo = in_dispute_above(dir.path(), "\n");
    repo.write(FILE, format!("# One.\n# Two.\n{}", repo.read(FILE))).commit("Say what it is");
    assert_eq!(repo.run(["rebase", "-q", "upstream"]).status, Some(1));
    settle(&repo, "");
    repo.ok(["add", FILE]);
    repo.ok(["rebase", "--continue"]);
    assert_eq!((line(&repo), there(&repo)), (9, 9));
}

#[test]
fn where_the_merge_is_not_lines_are_counted_in_what_pleach_left() {
    let dir = TempDir::new().unwrap();
    let repo = in_dispute_above(dir.path(), "\n");
    repo.run(["merge", "-q", "upstream"]);
    settle(&repo, "# One.\n");
    repo.commit("Sync");
    assert_eq!(line(&repo), 8);
    repo.ok(["checkout", "-q", "HEAD~1", "--", FILE]);
    assert_eq!((line(&repo), there(&repo)), (7, 7), "the commit is there, so ours was chosen");
    repo.ok(["checkout", "-q", "-f", "HEAD~1"]);
    assert_eq!(line(&repo), 11, "the file is as before the merge");
    repo.write(FILE, "level = 4\n");
    assert_eq!(line(&repo), 11, "another file");
    repo.ok(["rm", "-q", "-f", FILE]);
    assert_eq!(line(&repo), 11, "no file");
}

#[test]
fn a_merge_in_memory_is_not_looked_for_in_the_worktree() {
    let dir = TempDir::new().unwrap();
    let repo = in_dispute_above(dir.path(), "\n");
    repo.write(FILE, format!("# One.\n{}", repo.read(FILE)));
    repo.run(["merge-tree", "--write-tree", "main", "upstream"]);
    assert_eq!(line(&repo), 11);
}
