//! K9: inside a conflict block each side's text already carries the other side's compatible edits, so
//! that keeping either side of every block loses only what truly disagrees.

use std::ops::Range;

use pleach::{Answer, Versions, Way, line};

use super::edited::lex::Read;
use super::edited::scenario::{Edit, Patch, Scenario, meet};
use super::edited::{Lang, blocks, trees};
use super::merged::{answer, check, settings};

/// Where the line merge cannot be chosen from either, and no answer that can has as little in conflict, that is no
/// worse than the line merge (K3).
#[test]
fn either_choice_in_every_block_parses() {
    check("k9-parses", |s, answer| {
        if answer.way == Way::Lines || answer.conflicts == 0 {
            return None;
        }
        let lines = line::merge(s.texts().as_ref().map(String::as_bytes), &settings().line);
        (0..2).find_map(|side| {
            let parses = |text: &[u8]| Some(trees::parses(s.lang, &blocks::choose(text, side).ok()?));
            (!parses(&answer.text)? && parses(&lines.text)?)
                .then(|| format!("with side {side} chosen in every block, it does not parse"))
        })
    });
}

/// What a side wrote anew carries its mark: choosing a side must keep all of its marks, and the other's
/// marks wherever the other's edit meets none of the chosen side's in a statement.
#[test]
fn choosing_a_side_keeps_its_edits_and_the_compatible_edits_of_the_other() {
    check("k9-edits", complaint);
}

fn complaint(s: &Scenario, answer: &Answer) -> Option<String> {
    if answer.way == Way::Lines || answer.conflicts == 0 {
        return None;
    }
    (0..2).find_map(|side| {
        let chosen = String::from_utf8(blocks::choose(&answer.text, side).ok()?).ok()?;
        if let Some(lost) = marks(&s.side(side)).into_iter().find(|m| !chosen.contains(m.as_str())) {
            return Some(format!("side {side} chosen, and its own `{lost}` is lost"));
        }
        let lost = compatible(s, 1 - side).into_iter().find(|m| !chosen.contains(m.as_str()))?;
        Some(format!("side {side} chosen, and the other's compatible `{lost}` is lost"))
    })
}

/// The marks in a text: the words that [`super::edited::edits::tag`] marked.
fn marks(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for word in text.split(|c: char| !c.is_alphanumeric() && c != '_') {
        if let Some(at) = word.find("ours").or_else(|| word.find("theirs"))
            && word[at..].trim_start_matches(|c: char| c.is_alphabetic()).parse::<u32>().is_ok()
        {
            found.push(word[at..].to_owned());
        }
    }
    found.sort();
    found.dedup();
    found
}

/// The marks of a side's edits that stay out of every statement, suite included, in or beside which the
/// other side did anything.
fn compatible(s: &Scenario, side: usize) -> Vec<String> {
    let read = Read::new(s.lang, s.base.clone());
    let near = |at: &Range<usize>| {
        let first = read.line_at(at.start).saturating_sub(3);
        let last = (read.line_at(at.end) + 3).min(read.line_count().saturating_sub(1));
        let mut range = read.starts[first]..read.starts[last + 1];
        for (i, statement) in read.statements.iter().enumerate() {
            // The whole outermost statement: what is inside may depend on what it is.
            let bytes = read.bytes_of(&read.suite(i));
            if statement.indent == 0 && meet(&bytes, at) {
                range = range.start.min(bytes.start)..range.end.max(bytes.end);
            }
        }
        // What is put in behind the last line stands beside it.
        range.start..range.end + 1
    };
    let own = || s.sides[side].iter();
    // What is put in where its side took something out may be that, under another name: who edited that has to see it.
    let in_place_of_edited = |put_in: &Patch| {
        let beside = |gone: &Patch| {
            let between = gone.at.end.min(put_in.at.end)..gone.at.start.max(put_in.at.start);
            let apart = !between.is_empty() && !s.base[between].trim().is_empty();
            gone.text.trim().is_empty() && !s.base[gone.at.clone()].trim().is_empty() && !apart
        };
        let gone = own().flat_map(|e| &e.patches).filter(|gone| beside(gone));
        put_in.at.is_empty() && gone.into_iter().any(|gone| s.touched(1 - side, &near(&gone.at)))
    };
    let span =
        |of: &Edit| of.patches.iter().map(|p| p.at.clone()).reduce(|a, b| a.start.min(b.start)..a.end.max(b.end));
    // A side moved one of two things past the other: which, its text does not tell, nor where what it did to either is
    // to stand.
    let passed = |edit: &Edit| {
        let moves = own().filter(|other| other.what == "move statement" && !std::ptr::eq(*other, edit));
        let spans: Vec<_> = moves.filter_map(span).collect();
        edit.patches.iter().any(|p| spans.iter().any(|span| meet(span, &p.at)))
    };
    // A side put something around statements, and took out one beside or among them that the other edited: whether that
    // one is to stand in it too, nobody can tell, nor what is the same as before if the side also edited the others.
    let around_edited = |edit: &Edit| {
        let wraps = own().filter(|other| other.what == "wrap block");
        let end = |at: usize| read.starts[read.line_at(at).min(read.line_count().saturating_sub(1)) + 1];
        let spans: Vec<_> = wraps.filter_map(span).map(|lines| lines.start..end(lines.end)).collect();
        let gone_in = |span: &Range<usize>| {
            let gone = |p: &&Patch| p.text.trim().is_empty() && !s.base[p.at.clone()].trim().is_empty();
            let here = own().flat_map(|e| &e.patches).filter(gone).filter(|p| meet(span, &p.at));
            here.into_iter().any(|gone| s.touched(1 - side, &gone.at))
        };
        let mut around = spans.iter().filter(|span| edit.patches.iter().any(|p| meet(span, &p.at)));
        around.any(gone_in)
    };
    let mut found = Vec::new();
    for edit in own().filter(|edit| !passed(edit) && !around_edited(edit)) {
        let opposed = |p: &Patch| s.touched(1 - side, &near(&p.at)) || in_place_of_edited(p);
        if !edit.patches.iter().any(opposed) {
            found.extend(edit.patches.iter().flat_map(|p| marks(&p.text)));
        }
    }
    found
}

/// What one side did far from the other is asked for; what it put in the place of what the other edited is not, nor what
/// it moved something past, nor what it put into a block beside what it took out and the other edited.
#[test]
fn what_is_compatible_is_missed_where_it_is_lost() {
    let base = "a = 1\nb = 2\nc = 3\nd = 4\ne = 5\nf = 6\ng = 7\nh = 8\ni = 9\n";
    let place = |of: &str| base.find(of).expect("it is there");
    let line = |of: &str| place(of)..place(of) + 6;
    let edit = |what, patches: &[(Range<usize>, &str)]| {
        let patches = patches.iter().map(|(at, text)| Patch { at: at.clone(), text: (*text).to_owned() });
        Edit { what, patches: patches.collect() }
    };
    let scenario = |ours: Vec<Edit>| {
        let theirs = vec![edit("change number", &[(line("b"), "b = theirs1\n")])];
        Scenario { lang: Lang::Python, name: "made up".to_owned(), base: base.to_owned(), sides: [ours, theirs] }
    };
    let far = edit("rename one", &[(line("h"), "h = ours1\n")]);
    assert_eq!(compatible(&scenario(vec![far.clone()]), 0), ["ours1"]);
    assert_eq!(compatible(&scenario(vec![]), 1), ["theirs1"]);
    let gone = edit("delete statement", &[(line("b"), "")]);
    let new = edit("insert definition", &[(place("g")..place("g"), "def ours2(): pass\n")]);
    assert_eq!(compatible(&scenario(vec![gone.clone(), new.clone()]), 0), ["ours2"]);
    let all = edit("delete statement", &[(place("b")..place("g"), "")]);
    assert!(compatible(&scenario(vec![all, new]), 0).is_empty());
    let moved = edit("move statement", &[(line("i"), ""), (place("g")..place("g"), "i = 9\n")]);
    assert!(compatible(&scenario(vec![moved, far.clone()]), 0).is_empty());
    let wrap = edit("wrap block", &[(place("b")..place("b"), "if a:\n"), (place("i")..place("i"), "")]);
    assert_eq!(compatible(&scenario(vec![wrap.clone(), far.clone()]), 0), ["ours1"]);
    assert!(compatible(&scenario(vec![wrap, gone.clone(), far.clone()]), 0).is_empty());

    let scenario = scenario(vec![gone, far]);
    let found = answer(scenario.lang, &scenario.texts());
    assert_eq!((complaint(&scenario, &found), found.conflicts, found.way), (None, 1, Way::Trees));
    let text = String::from_utf8(found.text.clone()).expect("text").replace("ours1", "8");
    assert!(complaint(&scenario, &Answer { text: text.into_bytes(), ..found }).is_some());
}

fn texts(base: &str, ours: &str, theirs: &str) -> Versions<String> {
    Versions { base, ours, theirs }.map(str::to_owned)
}

/// The disagreement is about `unit`; everything else belongs on both sides of the block.
#[test]
fn both_sides_of_a_block_hold_what_does_not_disagree() {
    for (lang, base, ours, theirs, common) in [
        (
            Lang::Python,
            "plot(station, unit='m', colour='blue', width=1)\n",
            "plot(station, unit='ft', colour='blue', width=2)\n",
            "plot(harbour, unit='cm', colour='blue', width=1, grid=True)\n",
            &["harbour", "width=2", "grid=True", "colour='blue'"][..],
        ),
        (
            Lang::Rust,
            "fn main() {\n    plot(Tide { station, unit: 1, width: 1 });\n}\n",
            "fn main() {\n    plot(Tide { station, unit: 2, width: 2 });\n}\n",
            "fn main() {\n    draw(Tide { station, unit: 3, width: 1, grid: true });\n}\n",
            &["draw(", "width: 2", "grid: true"],
        ),
        (
            Lang::Toml,
            "tide = { station = \"a\", unit = 1, width = 1 }\n",
            "tide = { station = \"a\", unit = 2, width = 2 }\n",
            "tide = { station = \"b\", unit = 3, width = 1 }\n",
            &["station = \"b\"", "width = 2"],
        ),
    ] {
        let answer = answer(lang, &texts(base, ours, theirs));
        assert_eq!(answer.conflicts, 1, "{lang:?}: {}", String::from_utf8_lossy(&answer.text));
        for side in 0..2 {
            let chosen = String::from_utf8(blocks::choose(&answer.text, side).unwrap()).unwrap();
            for part in common {
                assert!(chosen.contains(part), "{lang:?}, side {side}: {part} is lost:\n{chosen}");
            }
        }
    }
}

/// Where a conflict merged by itself stands among what lines settled, it may not be readable any more.
#[test]
fn conflicts_merged_each_by_itself_can_be_settled_for_either_side() {
    let base = r#"        return ("Tides: %s level %d" %
                (quoted(self.station.harbour().name()),
                 self.station.number()))
        text += ("<h1><a href=\"%s\">Harbour %s</a>: level %d</h1>\n"
                 % (path_to(page, gauge.harbour()),
                    harbour, gauge.number()))

        if not gauge.is_read():
                text += stop_form(stop, self.is_known(page))
        if gauge.is_read():
            text += '<span class="%s">%s</span>\n' % (colours[results],
                                                      text)
            if gauge.levels():
                url = page.link("levels")

        text += "<ol>\n"
        for s in gauge.levels():
            text += (' <li><span class="%s"><a href=\"%s\">%s</a> [%s]</span>\n'
                     % (colour, 
                                            quote(name)))
                    text += ("   <li><a href=\"%s\">%s</a></li>\n" %
                             (link, tide.name()))
"#;
    let ours = r#"class TidePage(Page):

        for s in gauge.levels():
            if s.is_read():
                level['colour'] = colours[s.results()[0]]

            level['link'] = page.link("levels/%s" % quote(s.name()))

        if self.is_known(page):
                return Redirect("../../../unknown")
"#;
    let theirs = r#"class TidePage(Page):
        return ("Tides: %s level %d" %
                (quoted(self.station.harbour().name()),
                 self.station.number()))
        text += ("<h1><a href=\"%s\">Harbour %s</a>: level %d</h1>\n"
                 % (path_to(page, gauge.harbour()),
                    harbour, gauge.number()))

        if not gauge.is_read():
            if when is not None:
                text += stop_form(stop, self.is_known(page))
            text += '<span class="%s">%s</span>\n' % (colours[results],
                                                      text)
            if gauge.levels():
                url = page.link("levels")
        text += "<ol>\n"
        for s in gauge.levels():
                colour = colours[s.results()[0]]
"#;
    for texts in [texts(base, ours, theirs), texts(base, theirs, ours)] {
        let answer = answer(Lang::Python, &texts);
        assert!(answer.conflicts > 0);
        for side in 0..2 {
            let chosen = blocks::choose(&answer.text, side).expect("the blocks are whole");
            assert!(trees::parses(Lang::Python, &chosen), "side {side}: {}", String::from_utf8_lossy(&chosen));
        }
    }
}
