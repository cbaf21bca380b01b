//! What `pleach merge-file --diff3` shows of the ancestor where the trees leave a conflict.

use std::fs;

use tempfile::TempDir;

use crate::support::{PLEACH, Ran, program};

/// Git's diff3 style shows what base has there.
#[track_caller]
fn base_shows(texts: [&str; 3], blocks: &str) {
    let dir = TempDir::new().unwrap();
    for (name, text) in ["base.py", "ours.py", "theirs.py"].into_iter().zip(texts) {
        fs::write(dir.path().join(name), text).unwrap();
    }
    let labels = ["-L", "ours", "-L", "base", "-L", "theirs"];
    for style in ["--diff3", "--zdiff3"] {
        let words = ["merge-file", "-p", style].into_iter().chain(labels).chain(["ours.py", "base.py", "theirs.py"]);
        let ran: Ran = program(PLEACH, dir.path()).args(words).output().unwrap().into();
        assert_eq!(ran.status, Some(1), "{style}");
        assert_eq!(ran.out, blocks, "{style}");
    }
}

/// Of a line that both sides put in, nothing.
#[test]
fn of_a_line_that_both_sides_put_in_base_shows_nothing() {
    for (ours, theirs) in
        [("board.rows[UNIT]", "board.cells[UNIT]"), ("fit(UNIT, board.rows)", "fit(UNIT, board.cells)")]
    {
        let with = |rows: &str| format!("UNIT = 'm'\n\n\ndef draw(board):\n    rows = {rows}\n    return rows\n");
        let block =
            format!("<<<<<<< ours\n    rows = {ours}\n||||||| base\n=======\n    rows = {theirs}\n>>>>>>> theirs\n");
        base_shows(
            ["UNIT = 'm'\n", &with(ours), &with(theirs)],
            &format!("UNIT = 'm'\n\n\ndef draw(board):\n{block}    return rows\n"),
        );
    }
}

/// Of a list that both sides made longer, what base has on the line, without the separator that it does not have.
#[test]
fn of_a_list_that_both_sides_made_longer_base_shows_its_own_end() {
    let with = |modes: &str| format!("modes = (\"flood\",\n         {modes})\n");
    base_shows(
        [&with("\"ebb\""), &with("\"ebb\", \"slack\""), &with("\"ebb\", \"storm\"")],
        "modes = (\"flood\",\n<<<<<<< ours\n         \"ebb\", \"slack\")\n||||||| base\n         \"ebb\")\n=======\n         \"ebb\", \"storm\")\n>>>>>>> theirs\n",
    );
}
