//! K4: if all three versions parse and repeat no name, a clean answer parses and repeats none. A line
//! merge that is clean but unsound is merged again as trees; if that fails too, it becomes a conflict,
//! with the reason said.

use pleach::{Answer, Versions, Way};

use super::edited::edits::cut;
use super::edited::scenario::{Edit, Patch, Scenario, check_all};
use super::edited::{Lang, sources, trees};
use super::merged::{answer, check};

#[test]
fn clean_answers_parse_and_repeat_no_name() {
    check("k4", complaint);
}

/// What is wrong with an answer, by the grammar and by names alone.
fn complaint(s: &Scenario, answer: &Answer) -> Option<String> {
    if answer.conflicts > 0 {
        return None;
    }
    let texts = s.texts();
    let all = [&texts.base, &texts.ours, &texts.theirs];
    if !all.iter().all(|t| trees::parses(s.lang, t.as_bytes())) {
        return None;
    }
    if !trees::parses(s.lang, &answer.text) {
        return Some(format!("a clean answer does not parse ({:?}, {:?})", answer.way, answer.notes));
    }
    let repeated = trees::repeated(s.lang, texts.as_ref().map(String::as_bytes), &answer.text);
    repeated.map(|(name, n)| format!("`{name}` stands {n} times in one place ({:?}, {:?})", answer.way, answer.notes))
}

/// Both sides define one name, far enough apart that lines merge clean: the line merge is unsound.
#[test]
fn a_name_defined_by_both_in_different_places_is_refused() {
    let mut found = Vec::new();
    let added = [
        (Lang::Python, "def added(value):\n    return value + ", "\n\n\n"),
        (Lang::Rust, "fn added(value: u32) -> u32 {\n    value + ", "\n}\n\n"),
        (Lang::Toml, "[added]\nvalue = ", "\n\n"),
    ];
    for (lang, before, after) in added {
        for (k, (name, text)) in sources::sample(lang, 20, 800, 40_000).into_iter().enumerate() {
            let text = cut(lang, &text, 3 + 8 * k as u64 + 1);
            // Outermost places: before a line that starts a definition.
            let starts: Vec<usize> = text
                .match_indices(match lang {
                    Lang::Python => "\n\ndef ",
                    Lang::Rust => "\n\npub fn ",
                    Lang::Toml => "\n\n[",
                })
                .map(|(at, _)| at + 2)
                .collect();
            let (Some(first), Some(last)) = (starts.first(), starts.last()) else { continue };
            if text[*first..*last].lines().count() < 8 || !trees::parses(lang, text.as_bytes()) {
                continue;
            }
            let insert = |at: usize, n: usize| {
                let patch = Patch { at: at..at, text: format!("{before}{n}{after}") };
                vec![Edit { what: "define `added`", patches: vec![patch] }]
            };
            found.push(Scenario { lang, name, base: text.clone(), sides: [insert(*first, 1), insert(*last, 2)] });
        }
    }
    assert!(found.len() > 10, "only {} sources have two places for a definition", found.len());
    check_all("k4-defined-twice", &found, &|s| {
        let answer = answer(s.lang, &s.texts());
        if let Some(why) = complaint(s, &answer) {
            return Some(why);
        }
        if trees::repeats(s.lang, &answer.text, false).values().all(|n| *n < 2) && answer.conflicts == 0 {
            return Some("two definitions of one name became one without a conflict".to_owned());
        }
        None
    });
}

fn python(base: &str, ours: &str, theirs: &str) -> Answer {
    answer(Lang::Python, &Versions { base, ours, theirs }.map(str::to_owned))
}

const FAR_APART: &str = "draw(\n    a,\n    b,\n    c,\n    d,\n    e,\n    f,\n)\n";

/// "A syntax error if repeated" (The Python Language Reference, 6.3.4 "Calls").
#[test]
fn a_keyword_given_twice_by_a_clean_line_merge_is_a_conflict_with_a_reason() {
    let answer = python(
        FAR_APART,
        &FAR_APART.replace("    a,\n", "    a,\n    *more,\n").replace("    b,\n", "    b=1,\n"),
        &FAR_APART.replace("    f,\n", "    f=1,\n    b=2,\n"),
    );
    assert!(answer.conflicts > 0, "{}", String::from_utf8_lossy(&answer.text));
}

#[test]
fn one_keyword_with_one_value_added_in_two_places_is_given_once() {
    let base = "draw(\n    a=0,\n    b=0,\n    c=0,\n    d=0,\n    e=0,\n    f=0,\n)\n";
    let answer = python(
        base,
        &base.replace("    b=0,\n", "    tide=1,\n    b=0,\n"),
        &base.replace("    f=0,\n", "    f=0,\n    tide=1,\n"),
    );
    assert_eq!(answer.conflicts, 0, "{}", String::from_utf8_lossy(&answer.text));
    assert_eq!(String::from_utf8(answer.text).unwrap().matches("tide=1").count(), 1);
}

#[test]
fn one_keyword_with_two_values_added_in_two_places_is_a_conflict() {
    let base = "draw(\n    a=0,\n    b=0,\n    c=0,\n    d=0,\n    e=0,\n    f=0,\n)\n";
    let answer = python(
        base,
        &base.replace("    b=0,\n", "    tide=1,\n    b=0,\n"),
        &base.replace("    f=0,\n", "    f=0,\n    tide=2,\n"),
    );
    assert!(answer.conflicts > 0, "{}", String::from_utf8_lossy(&answer.text));
    assert!(answer.way == Way::Lines || answer.notes.iter().any(|n| n.contains("tide")), "{:?}", answer.notes);
}

#[test]
fn a_repetition_that_a_side_already_had_is_no_reason_to_refuse() {
    let base = "def f():\n    a()\n\n\ndef f():\n    b()\n\n\ndef g():\n    return 1\n";
    let answer = python(base, &base.replace("a()", "aa()"), &base.replace("return 1", "return 2"));
    assert_eq!(answer.conflicts, 0);
    assert_eq!(answer.text, base.replace("a()", "aa()").replace("return 1", "return 2").as_bytes());
}

/// What lines leave out of sight is only what cannot make the merge unsound: long functions around it change nothing.
#[test]
fn a_clean_line_merge_is_judged_the_same_with_more_around_it() {
    let far = |n: usize| -> String { (0..4).map(|i| format!("step{n}_{i}(0, 0)\n")).collect() };
    let in_block = |text: &str| text.lines().map(|l| format!("    {l}\n")).collect::<String>();
    let (a, b) = (far(1), far(2));
    let plain = format!("{a}\n\n{b}\n\nend(0)\n");
    let at_b = |new: &str| plain.replace(&b, &format!("{new}{b}"));
    let at_end = |new: &str| plain.replace("end(0)", &format!("{new}end(0)"));
    let quotes = format!("first(0)\n\n\n{a}\n\n{b}\n\n{}\n\nend(0)\n", far(3));
    let block = format!("if calm():\n{}\n{}\n\nend(0)\n", in_block(&a), in_block(&b));
    let cases = [
        ("one function", &plain, at_b("def low(a):\n    pass\n\n\n"), at_end("def low(b):\n    pass\n\n\n"), true),
        ("two functions", &plain, at_b("def low(a):\n    pass\n\n\n"), at_end("def high(a):\n    pass\n\n\n"), false),
        (
            "one import, legal if odd",
            &plain,
            at_b("from a import (\n    tide,\n)\n"),
            at_end("from b import (\n    tide,\n)\n"),
            false,
        ),
        ("one class", &plain, at_b("class Low(A):\n    pass\n\n\n"), at_end("class Low:\n    pass\n\n\n"), true),
        (
            "an edit in what became a string",
            &quotes,
            quotes.replace(&a, &format!("\"\"\"\n{a}")).replace("end(0)", "\"\"\""),
            quotes.replace(&b, &format!("\"\"\"\n\n\n{}\n\n\"\"\"\n{b}", "and high\n".repeat(20))),
            true,
        ),
        (
            "a block of which each side took out a half",
            &block,
            block.replace(&in_block(&a), ""),
            block.replace(&format!("\n{}", in_block(&b)), ""),
            true,
        ),
        (
            "edits of two functions",
            &plain,
            plain.replace("step1_2(0", "step1_2(1"),
            plain.replace("step2_2(0", "step2_2(2"),
            false,
        ),
    ];
    let around = |n: usize| -> String {
        let body = "    report(station, level, unit='m', quay=7, wind=None)\n".repeat(6);
        (n..n + 6).map(|i| format!("def around_{i}():\n{body}\n\n")).collect()
    };
    let (before, after) = (around(0), around(6));
    let git = |v: &Versions<String>| {
        pleach::line::merge(v.as_ref().map(|t| t.as_bytes()), &pleach::Settings::default().line).conflicts
    };
    for (what, base, ours, theirs, unsound) in cases {
        let alone = Versions { base: base.clone(), ours, theirs };
        let within = alone.as_ref().map(|text| format!("{before}{text}\n\n{after}"));
        assert_eq!((git(&alone), git(&within)), (0, 0), "{what}: lines do not merge it");
        let [alone, within] = [alone, within].map(|versions| answer(Lang::Python, &versions));
        let said = |a: &Answer| a.notes.iter().any(|note| note.starts_with("the line merge is unsound"));
        assert_eq!(said(&alone), unsound, "{what}: {:?}", alone.notes);
        assert_eq!(said(&within), unsound, "{what}, with more around it: {:?}", within.notes);
        let text = format!("{before}{}\n\n{after}", String::from_utf8_lossy(&alone.text));
        assert_eq!(String::from_utf8_lossy(&within.text), text, "{what}");
    }
}

/// What has the member may be declared in another file: nobody here knows whether the merge is wrong.
#[test]
fn a_member_that_one_side_replaced_everywhere_and_the_other_uses_anew_is_told() {
    let base = "def flood(gate):\n    gate.stop()\n\n\ndef ebb(gate):\n    gate.stop()\n\n\ndef slack(gate):\n    gate.stop()\n";
    let ours = base.replacen("stop", "halt", 1).replace("stop", "shut");
    let theirs = format!("{base}\n\ndef storm(gate):\n    gate.stop()\n");
    let answer = python(base, &ours, &theirs);
    assert_eq!(answer.conflicts, 0);
    assert_eq!(answer.notes, ["`stop` at line 14: ours took it out of the file, theirs uses it anew"]);
    // It has another name now.
    let renamed = python(base, &base.replace("stop", "halt"), &theirs);
    assert_eq!(renamed.conflicts, 1);
    assert_eq!(renamed.notes, ["`stop` at line 16: ours took it out of the file, theirs uses it anew"]);
    // A name that is no member, or one that ours still has, is another matter.
    let none = python(base, &base.replace("slack", "spring"), &theirs);
    assert_eq!((none.conflicts, none.notes), (0, Vec::new()));
}

/// What is in dispute may show the old uses too.
#[test]
fn a_name_that_is_used_anew_is_told_of_where_that_is_and_not_where_base_had_it() {
    let base = "import os\n\n\ndef show(port):\n    total = (os.name +\n             read(1))\n    return total\n";
    let ours = format!("{}\n\ndef save():\n    os.sync()\n", base.replace("read", "write"));
    let theirs = base.replace("import os\n\n\n", "").replace("os.name", "port.name").replace("read(1)", "read(2)");
    let answer = python(base, &ours, &theirs);
    let text = String::from_utf8(answer.text).expect("it is text");
    let lines: Vec<&str> = text.lines().collect();
    let at = |part: &str| lines.iter().position(|line| line.contains(part)).expect("it is there") + 1;
    assert!(answer.conflicts > 0 && at("os.name") < at("os.sync"), "{text}");
    let told = format!("`os` at line {}: theirs took it out of the file, ours uses it anew", at("os.sync"));
    assert!(answer.notes.contains(&told), "{:?}\n{text}", answer.notes);
}

/// Git's line merge stands where it is clean (contract K3), but not without a word.
#[test]
fn a_clean_line_merge_that_uses_what_one_side_took_out_is_noted() {
    let far = "def report(rows):\n    first(rows)\n    second(rows)\n    third(rows)\n    fourth(rows)\n";
    let base = format!("import os\n\n\n{far}\n\nprint(os.name)\n");
    let ours = format!("\n\n{far}\n\nprint('quay')\n");
    let theirs = base.replace("    second(rows)\n", "    second(rows)\n    os.sync()\n");
    let answer = python(&base, &ours, &theirs);
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    assert_eq!(answer.notes, ["`os` at line 6: ours took it out of the file, theirs uses it anew"]);
}

/// What is gone from the file is gone from each definition in it too.
#[test]
fn a_name_that_is_gone_from_the_file_is_told_of_once() {
    let base = "def show(rows):\n    count(rows)\n    total(rows)\n    tell(1)\n";
    let ours = base.replace("rows", "levels");
    let answer = python(base, &ours, &format!("{base}    store(rows)\n"));
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    assert_eq!(answer.notes, ["`rows` at line 5: ours took it out of the file, theirs uses it anew"]);
    let answer = python(base, &ours, &base.replace("    tell", "    store(rows)\n    tell"));
    assert_eq!((answer.conflicts, answer.notes.len()), (1, 1), "{:?}", answer.notes);
    assert!(answer.notes[0].ends_with("ours took it out of the file, theirs uses it anew"), "{:?}", answer.notes);
}

/// A method is no function of its name (The Rust Reference, "Associated functions and methods").
#[test]
fn a_function_that_one_side_made_a_method_and_the_other_calls_anew_is_noted() {
    let held = "struct Board {\n    level: i64,\n}\n\n";
    let free = "fn scaled(board: &Board, by: i64) -> i64 {\n    board.level * by\n}\n\n";
    let method = "impl Board {\n    fn scaled(&self, by: i64) -> i64 {\n        self.level * by\n    }\n}\n\n";
    let users = |first: &str, second: &str| {
        format!(
            "fn refresh(board: &Board) -> i64 {{\n    {first}\n}}\n\nfn publish(board: &Board) -> i64 {{\n    {second}\n}}\n"
        )
    };
    let base = format!("{held}{free}{}", users("scaled(board, 3)", "board.level"));
    let ours = format!("{held}{method}{}", users("board.scaled(3)", "board.level"));
    let theirs = format!("{held}{free}{}", users("scaled(board, 3)", "scaled(board, 5)"));
    let told = answer(Lang::Rust, &Versions { base: base.clone(), ours: ours.clone(), theirs });
    assert_eq!((told.conflicts, told.way), (0, Way::Lines));
    assert_eq!(told.notes, ["`scaled` at line 16: ours took it out of the file, theirs uses it anew"]);
    // Called as the method that it is, it is there.
    let theirs = base.replace("    board.level\n", "    board.scaled(5)\n");
    let fine = answer(Lang::Rust, &Versions { base, ours, theirs });
    assert_eq!((fine.conflicts, fine.notes), (0, Vec::new()));
}

/// A name is what was last bound to it (Language Reference 4.2.1, "Binding of names"): of two that the sides brought in,
/// one is lost. It is Python, and git's line merge stands (contract K3), but not without a word.
#[test]
fn a_name_that_each_side_brought_in_from_elsewhere_is_noted_or_in_dispute() {
    let far = "def report(rows):\n    first(rows)\n    second(rows)\n    third(rows)\n    fourth(rows, unit='m')\n";
    let base = format!("import os\nimport sys\n\nimport tides\n\n\n{far}\n\nprint(os.name)\n");
    let with = |after: &str, line: &str| base.replace(after, &format!("{after}{line}"));
    let defined = format!("{base}\n\ndef level(port):\n    return port.level\n");
    let cases = [
        ("from harbour import level\n", with("import tides\n", "from gauges import level\n"), Some(6)),
        (
            "from harbour import (\n    ebb,\n    level,\n)\n",
            with("import tides\n", "from gauges import level\n"),
            Some(9),
        ),
        ("from harbour import high as level\n", with("import tides\n", "from gauges import level\n"), Some(6)),
        ("from harbour import level\n", defined, Some(18)),
        // Another name, the same thing, and a name in another scope.
        ("from harbour import level as depth\n", with("import tides\n", "from gauges import level\n"), None),
        ("from harbour import level\n", with("import tides\n", "from harbour import level\n"), None),
        ("from harbour import level\n", with("    third(rows)\n", "    from gauges import level\n"), None),
    ];
    for (line, theirs, noted) in cases {
        let ours = with("import os\n", line);
        for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
            let answer = python(&base, ours, theirs);
            assert_eq!((answer.conflicts, answer.way), (0, Way::Lines), "{line}");
            let note = |at| format!("`level` at line {at} shadows another one above: each side brought in one of them");
            assert_eq!(answer.notes, noted.map(note).into_iter().collect::<Vec<_>>(), "{line}");
        }
        // Where lines do not merge, the trees do not settle it either.
        let ours = ours.replace("unit='m'", "unit='m', quay=7");
        let theirs = theirs.replace("unit='m'", "unit='m', wind=None");
        for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
            let answer = python(&base, ours, theirs);
            assert_eq!(answer.conflicts > 0, noted.is_some(), "{line}{}", String::from_utf8_lossy(&answer.text));
        }
    }
}

/// In a class or a module, what a name stands for is the last value that it was given (Language Reference 4.2.1 and 7.2):
/// of two that the sides gave it, one is lost. In a function it may well be another for each use.
#[test]
fn a_name_that_each_side_gave_a_value_is_noted_or_in_dispute() {
    let class = "class Board:\n    rows = 3\n\n    def show(self):\n        first(self)\n        second(self)\n        third(self, 1)\n\n    def hide(self):\n        fourth(self, 2)\n";
    let put_in = |text: &str, after: &str, line: &str| text.replace(after, &format!("{after}{line}"));
    let cases = [
        (class, "class Board:\n", "    rows = 3\n", "    level = 1\n", "    level = 2\n", Some(4)),
        (class, "class Board:\n", "third(self, 1)\n", "    level: int = 1\n", "    level: int = 2\n", Some(9)),
        // In a method, and given by what belongs to something else.
        (class, "def show(self):\n", "second(self)\n", "        level = 1\n", "        level = 2\n", None),
        (class, "class Board:\n", "    rows = 3\n", "    Tide.level = 1\n", "    Tide.level = 2\n", None),
    ];
    for (base, there, elsewhere, one, other, noted) in cases {
        let (ours, theirs) = (put_in(base, there, one), put_in(base, elsewhere, other));
        for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
            let answer = python(base, ours, theirs);
            assert_eq!((answer.conflicts, answer.way), (0, Way::Lines), "{one}");
            let note = |at| format!("`level` at line {at} shadows another one above: each side brought in one of them");
            assert_eq!(answer.notes, noted.map(note).into_iter().collect::<Vec<_>>(), "{one}");
        }
        // Where lines do not merge, only one of them stands.
        let ours = ours.replace("fourth(self, 2)", "fourth(self, 2, quay=7)");
        let theirs = theirs.replace("fourth(self, 2)", "fourth(self, 2, wind=None)");
        for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
            let answer = python(base, ours, theirs);
            assert_eq!(answer.conflicts > 0, noted.is_some(), "{one}{}", String::from_utf8_lossy(&answer.text));
        }
    }
}

/// Where a statement ends with a brace, lines take one brace for another: git's merge has twice what both sides put in behind
/// a block of which one of them changed the last line. Its answer stands (contract K3), but not without a word.
#[test]
fn what_each_side_put_in_that_stands_twice_is_noted() {
    let text = |rows: &str, load: &str, put_in: &str| {
        format!(
            "fn draw(rows: &Rows) {{\n    for row in rows {{\n        log(row);\n        {load};\n    }}\n{put_in}    done({rows});\n}}\n"
        )
    };
    let put_in = "    if rows.fresh {\n        show(rows);\n    }\n";
    let merged = |base: [&str; 3], ours: [&str; 3], theirs: [&str; 3]| {
        let [base, ours, theirs] = [base, ours, theirs].map(|[rows, load, put_in]| text(rows, load, put_in));
        answer(Lang::Rust, &Versions { base, ours, theirs })
    };
    let told = merged(["1", "load(row)", ""], ["1", "load(row)", put_in], ["1", "load(row, 3)", put_in]);
    assert_eq!((told.conflicts, told.way), (0, Way::Lines));
    assert_eq!(told.notes, ["`if rows.fresh {` at line 9 stands twice there: each side put in one of them"]);
    // What a side had twice itself is its own.
    let twice = put_in.repeat(2);
    let fine = merged(["1", "load(row)", &twice], ["2", "load(row)", &twice], ["1", "load(row, 3)", &twice]);
    assert_eq!((fine.conflicts, fine.notes), (0, Vec::new()));
}

/// Lines are matched by what they say: of two methods that are much alike, git's merge takes one for the other where a
/// side exchanged them. Its answer stands (contract K3), but not without a word.
#[test]
fn a_clean_line_merge_that_puts_an_edit_into_another_function_is_noted() {
    let method = |name: &str, level: usize| {
        format!(
            "    def {name}(self):\n        rows = load(0)\n        rows.sort()\n        draw(rows)\n        level = {level}\n        show(level)\n\n"
        )
    };
    let text = |methods: [String; 2]| format!("class Board:\n{}    last = 0\n", methods.concat());
    let base = text([method("low", 0), method("high", 0)]);
    let ours = text([method("high", 0), method("low", 0)]);
    let theirs = text([method("low", 7), method("high", 0)]);
    // As `git merge-file` diffs them; `git merge` sees a conflict.
    let mut settings = pleach::Settings::default();
    settings.line.algorithm = pleach::line::Algorithm::Myers;
    let versions = Versions { base: &base, ours: &ours, theirs: &theirs }.map(|text| text.as_bytes());
    let answer = pleach::merge(versions, Lang::Python.language(), &settings);
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    assert_eq!(answer.text, text([method("high", 7), method("low", 0)]).as_bytes());
    assert_eq!(answer.notes, ["line 6: lines put into `high` what theirs changed in `low`"]);
    // Where the line merge does not do, the edit goes to the method that it was made in.
    let renamed = theirs.replace("class Board", "class QuayBoard");
    let answer = python(&base, &ours.replace("class Board", "class TideBoard"), &renamed);
    let text = String::from_utf8_lossy(&answer.text);
    assert!(text.contains(&method("high", 0)) && text.contains(&method("low", 7)), "{text}");
}

/// So it is if the lines above what leads to a statement changed with it: where one side puts a derive on a struct and takes
/// out the line above, lines take that of the struct that the other side put in before for it (contract K3).
#[test]
fn a_clean_line_merge_that_derives_for_another_struct_is_noted() {
    let tide = |name: &str, derive: &str| format!("#[derive({derive})]\n#[doc(hidden)]\npub struct {name};\n");
    let base = format!("register!(Low);\n\n{}", tide("High", "Copy"));
    let ours = tide("High", "Copy, Hash");
    let theirs = format!("register!(Low);\n\n{}\nregister!(Mean);\n\n{}", tide("Mean", "Copy"), tide("High", "Copy"));
    let versions = Versions { base: &base, ours: &ours, theirs: &theirs }.map(|text| text.as_bytes());
    let answer = pleach::merge(versions, Lang::Rust.language(), &pleach::Settings::default());
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    let put_in = format!("{}\nregister!(Mean);\n\n{}", tide("Mean", "Copy, Hash"), tide("High", "Copy"));
    assert_eq!(answer.text, put_in.as_bytes());
    let note = "line 1: lines put into `pub struct Mean;` what ours changed in `pub struct High;`";
    assert_eq!(answer.notes, [note]);
}

/// The new function of one side begins as the old one does, so that lines take the decorator of the old one for that of
/// the new one: what the other side put above it stands above the new one. Git's answer stands, with a word (contract K3).
#[test]
fn a_clean_line_merge_that_decorates_another_function_is_noted() {
    let base = "@cached\ndef low(rows):\n    return rows\n";
    let ours = "@cached\ndef high(rows):\n    return max(rows)\n\n\n@cached\ndef low(rows):\n    return rows\n";
    let theirs = "@traced\n@cached\ndef low(rows):\n    return rows\n";
    let answer = python(base, ours, theirs);
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    assert_eq!(answer.text, format!("@traced\n{ours}").as_bytes());
    assert_eq!(answer.notes, ["line 1: lines put into `def high(rows):` what theirs changed in `def low(rows):`"]);
    // What the new one is above of is not between.
    let above = format!("{}\n\ndef high(rows):\n    return max(rows)\n", base);
    assert_eq!(python(base, &above, theirs).notes, Vec::<String>::new());
}

/// So it is if what one side put above the old one is a comment: it says something of that, and stands above the new one.
#[test]
fn a_clean_line_merge_that_describes_another_function_is_noted() {
    let base = "@cached\ndef low(rows):\n    return rows\n";
    let ours = "@cached\ndef high(rows):\n    return max(rows)\n\n\n@cached\ndef low(rows):\n    return rows\n";
    let theirs = "# The lowest of a day.\n@cached\ndef low(rows):\n    return rows\n";
    let answer = python(base, ours, theirs);
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    assert_eq!(answer.text, format!("# The lowest of a day.\n{ours}").as_bytes());
    assert_eq!(answer.notes, ["line 1: lines put into `def high(rows):` what theirs changed in `def low(rows):`"]);
}

/// Elsewhere in the file the name still means something, so the file alone does not show it (Language Reference 4.2.2,
/// "Resolution of names").
#[test]
fn a_statement_that_uses_what_one_side_took_out_of_its_function_is_in_dispute_and_the_reason_noted() {
    let base = "def store(rows):\n    write(rows)\n\n\ndef refresh():\n    rows = parse()\n    show(rows)\n";
    let ours = base.replace("    rows = parse()\n    show(rows)\n", "    levels = parse()\n    show(levels)\n");
    let theirs = format!("{base}    store(rows)\n");
    let answer = python(base, &ours, &theirs);
    assert_eq!(answer.conflicts, 1);
    let text = String::from_utf8_lossy(&answer.text);
    assert!(text.ends_with("    show(levels)\n<<<<<<< ours\n=======\n    store(rows)\n>>>>>>> theirs\n"), "{text}");
    assert_eq!(answer.notes, ["`rows` at line 10: ours took it out of the code around, theirs uses it anew"]);
    // What ours still has in that function may be used.
    let kept = python(base, &base.replace("show(rows)", "show(rows, 7)"), &theirs);
    assert_eq!((kept.conflicts, kept.notes), (0, Vec::new()));
}

/// The answer to a case of the corpus.
fn of_withdrawn_names(case: &str) -> pleach::Answer {
    let read = |version: &str| {
        let path = format!("{}/corpus/python/withdrawn-names/{case}/{version}.py", env!("CARGO_MANIFEST_DIR"));
        std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"))
    };
    python(&read("base"), &read("ours"), &read("theirs"))
}

/// The half of ours stands in dispute for another reason, and taken whole it would use what is not there.
#[test]
fn a_dispute_with_a_statement_that_uses_what_the_other_side_took_out_of_its_function_says_so() {
    let answer = of_withdrawn_names("local-name-given-up-that-another-function-has-more-often");
    assert_eq!((answer.conflicts, answer.way), (1, Way::Trees));
    assert_eq!(answer.notes, ["`reading` at line 24: theirs took it out of the code around, ours uses it anew"]);
}

/// Each conflict merged by itself would be clean here, and not show that lines put an edit into a function that lacks
/// its parameter ("Resolution of names").
#[test]
fn what_lines_put_into_another_function_is_told_where_lines_leave_less_in_dispute() {
    let answer = of_withdrawn_names("parameter-used-in-what-lines-put-into-another-function");
    assert_eq!((answer.conflicts, answer.way), (2, Way::Lines));
    let [note] = answer.notes.as_slice() else { panic!("{:?}", answer.notes) };
    assert!(note.ends_with("; ours uses `datum` anew in code that theirs took it out of"), "{note}");
}

/// So it is where lines settled what took the name out: in a clean line merge, which stands (contract K3), and beside
/// a conflict. What another function calls the same is another matter.
#[test]
fn a_line_merge_that_uses_what_one_side_renamed_in_a_function_is_noted() {
    let loops = "    for row in rows():
        add(row)
        settle(row)
    log()
";
    let base = format!(
        "LIMIT = 3\n\n\ndef draw(board):\n{loops}    return board\n\n\ndef publish(board):\n    return board\n"
    );
    let ours = base.replacen("draw(board)", "draw(screen)", 1).replacen("return board", "return screen", 1);
    let theirs = base.replace("        settle(row)\n", "        board.paint(row)\n        settle(row)\n");
    let answer = python(&base, &ours, &theirs);
    assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
    assert_eq!(answer.notes, ["`board` at line 7: ours took it out of the code around, theirs uses it anew"]);
    let kept = python(&base, &base.replace("return board\n\n", "return board, 1\n\n"), &theirs);
    assert_eq!((kept.conflicts, kept.notes), (0, Vec::new()));
}

/// What lines settle, who settles the conflict that they leave does not see: a function that each side put in at a place
/// of its own stands twice then. No answer may have more in conflict than the line merge (contract K3), so it is said.
#[test]
fn what_stands_twice_beside_a_conflict_is_noted() {
    let more: String = (0..20).map(|i| format!("def zone_{i}(port):\n    return port.zone({i})\n\n\n")).collect();
    for more in ["", &more] {
        let text = |units: &str, first: &str, second: &str| {
            format!(
                "UNITS = [{units}]\n\n\ndef read(port):\n    return port.read()\n\n\n{first}{more}def close(port):\n    port.close()\n\n\n{second}def main():\n    read(PORT)\n"
            )
        };
        let (sorted, plain) = (
            "def level(port):\n    levels = [read(port) for _ in range(5)]\n    levels.sort()\n    return levels[2]\n\n\n",
            "def level(port):\n    return port.level()\n\n\n",
        );
        let [base, ours] = [text("1", "", ""), text("2", sorted, "")];
        let answer = python(&base, &ours, &text("3", "", plain));
        assert_eq!(answer.conflicts, 1, "{}", String::from_utf8_lossy(&answer.text));
        let merged = String::from_utf8_lossy(&answer.text);
        let lines = || merged.lines().zip(1..).filter(|(line, _)| *line == "def level(port):").map(|(_, at)| at);
        assert_eq!(lines().count(), 2, "{merged}");
        let second = lines().last().expect("there are two");
        let note = format!(
            "function definition `def level(port):` would stand twice at line {second}, whichever side is chosen"
        );
        assert_eq!(answer.notes, [note]);
        // What is in dispute itself is seen.
        let disputed = python(&base, &ours, &text("3", plain, ""));
        assert_eq!((disputed.conflicts, disputed.notes), (2, Vec::new()));
    }
}

/// A name that only one half of a conflict declares, and what nobody has to choose about uses, is said to be missing with
/// the other half.
#[test]
fn a_name_that_only_the_other_half_of_a_conflict_declares_is_noted() {
    let more: String = (0..20).map(|i| format!("def zone_{i}(port):\n    return port.zone({i})\n\n\n")).collect();
    for more in ["", &more] {
        let text = |first: &str, last: &str| {
            format!("{more}def show(port):\n    {first}\n    warn(port)\n    log(port)\n    {last}\n")
        };
        let base = text("level = pick(port)", "draw(level)");
        let ours = text("level = pick(port, 3)", "draw(level)");
        let theirs = text("rows = load(port)", "draw(rows)");
        let at = base.lines().count() + 4;
        for (ours, theirs, chosen) in [(&ours, &theirs, "ours"), (&theirs, &ours, "theirs")] {
            let answer = python(&base, ours, theirs);
            assert_eq!(answer.conflicts, 1, "{}", String::from_utf8_lossy(&answer.text));
            assert_eq!(answer.notes, [format!("nothing declares `rows` at line {at}, with {chosen} chosen")]);
        }
    }
}

/// A method that each side moved, one within its class and one into another: lines do not see that it is one thing, and
/// git's merge has it at both places. Its answer stands (contract K3), but not without a word.
#[test]
fn what_each_side_moved_to_another_place_and_stands_at_both_is_noted() {
    let methods = ["load", "draw", "close"].map(|name| format!("    def {name}(self):\n        self.{name}_all()\n\n"));
    let [load, draw, close] = &methods;
    let text = |above: &str, gauge: &str, board: &str| format!("{above}class Gauge:\n{gauge}\nclass Board:\n{board}");
    let rest = format!("{load}{draw}");
    let open = "    def open(self):\n        self.start()\n";
    let base = text("", &format!("{rest}{close}"), open);
    let ours = text("", &rest, &format!("{open}\n{close}"));
    let theirs = text("", &format!("{close}{rest}"), open);
    let told = "lines 2 and 16: what begins with `def close(self):` stands at both: each side moved it to one of them";
    for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
        let answer = python(&base, ours, theirs);
        assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
        assert_eq!(answer.notes, [told], "{}", String::from_utf8_lossy(&answer.text));
    }
    // Where both moved it alike it is there once.
    let fine = python(&base, &theirs, &format!("{theirs}\n\nboard = Board()\n"));
    assert_eq!((fine.conflicts, fine.notes), (0, Vec::new()));
}

/// Where a blank line stands between, the diff of one side says that what both put in stands above it, and the other that it
/// stands below: git's merge has all of it twice. Its answer stands (contract K3), but not without a word: also of several
/// statements, and of lines of a text.
#[test]
fn what_both_put_in_beside_a_blank_line_that_stands_twice_is_noted() {
    let code = |load: &str, put_in: &str| format!("def draw(rows):\n    {load}(rows)\n\n{put_in}    return rows\n");
    let statements = "    if rows.fresh:\n        show(rows)\n\n    if rows.low:\n        warn(rows)\n\n";
    let text = |load: &str, put_in: &str| {
        format!(
            "def draw(rows):\n    \"\"\"Draws.\n\n    {load} the rows.\n\n{put_in}    Of one day.\n    \"\"\"\n    return rows\n"
        )
    };
    let lines = "    In feet.\n    Of one quay.\n\n";
    for (text, put_in, told) in [
        (
            &code as &dyn Fn(&str, &str) -> String,
            statements,
            "line 10: what begins with `if rows.fresh:` stands twice there: each side put in one of them",
        ),
        (&text, lines, "line 9: what begins with `In feet.` stands twice there: each side put in one of them"),
    ] {
        let [base, ours, theirs] = [text("load", ""), text("load", put_in), text("fetch", put_in)];
        for (ours, theirs) in [(&ours, &theirs), (&theirs, &ours)] {
            let answer = python(&base, ours, theirs);
            assert_eq!((answer.conflicts, answer.way), (0, Way::Lines));
            assert_eq!(answer.notes, [told], "{}", String::from_utf8_lossy(&answer.text));
        }
        // What one side alone puts in is there once, or as often as it put it in.
        let fine = python(&base, &base, &text("fetch", &put_in.repeat(2)));
        assert_eq!((fine.conflicts, fine.notes), (0, Vec::new()));
    }
}
