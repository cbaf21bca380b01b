//! K2: swapping ours and theirs gives the same verdict, the same number of conflicts and the same
//! syntax, up to the order of entries where order is free and of two insertions at one place.

use std::collections::BTreeMap;

use pleach::{Answer, Versions, line};

use super::edited::lex::words;
use super::edited::scenario::Scenario;
use super::edited::{Lang, blocks, trees};
use super::merged::{answer, check, settings};

#[test]
fn swapping_the_sides_swaps_nothing_but_the_order() {
    check("k2", complaint);
}

fn complaint(s: &Scenario, straight: &Answer) -> Option<String> {
    let swapped = answer(s.lang, &s.texts().mirrored());
    // Git's own merge compares ours with theirs from ours' side when it takes common lines out of a conflict, so its
    // blocks may differ, and with them the answers that are no worse; that is git's to keep.
    let lines = |texts: Versions<String>| {
        blocks::count(&line::merge(texts.as_ref().map(String::as_bytes), &settings().line).text)
    };
    if straight.way == swapped.way && lines(s.texts()) != lines(s.texts().mirrored()) {
        return None;
    }
    if straight.conflicts != swapped.conflicts && !in_another_order(&straight.text, &swapped.text) {
        return Some(format!("{} conflicts, but {} swapped", straight.conflicts, swapped.conflicts));
    }
    if straight.way != swapped.way {
        return Some(format!("{:?}, but {:?} swapped", straight.way, swapped.way));
    }
    for side in 0..2 {
        let (one, other) = (blocks::choose(&straight.text, side).ok()?, blocks::choose(&swapped.text, 1 - side).ok()?);
        let (a, b) = (bag(&one), bag(&other));
        if a != b {
            let odd =
                a.iter().find(|(w, n)| b.get(*w) != Some(n)).or_else(|| b.iter().find(|(w, n)| a.get(*w) != Some(n)));
            return Some(format!("with side {side} chosen in every block, `{}` differs in number", odd?.0));
        }
        if straight.conflicts == 0 && unordered(s, &one) != unordered(s, &other) {
            return Some("the syntax differs by more than order".to_owned());
        }
    }
    None
}

/// Whether two answers in conflict, of exchanged sides, have the same lines for either side, but not in one order: then
/// what stands between two blocks in one may stand elsewhere in the other, and two that nothing stands between are one.
fn in_another_order(straight: &[u8], swapped: &[u8]) -> bool {
    let sorted = |text: &[u8]| {
        let lines = text.split(|b| *b == b'\n').map(<[u8]>::trim_ascii);
        let mut lines: Vec<Vec<u8>> = lines.filter(|line| !line.is_empty()).map(<[u8]>::to_vec).collect();
        lines.sort();
        lines
    };
    let chosen = |side| Some((blocks::choose(straight, side).ok()?, blocks::choose(swapped, 1 - side).ok()?));
    let (Some(ours), Some(theirs)) = (chosen(0), chosen(1)) else { return false };
    let same = |(one, other): &(Vec<u8>, Vec<u8>)| sorted(one) == sorted(other);
    same(&ours) && same(&theirs) && (ours.0 != ours.1 || theirs.0 != theirs.1)
}

#[test]
fn blocks_may_be_of_another_number_only_where_nothing_but_the_order_differs() {
    let block = |ours: &str, theirs: &str| format!("<<<<<<< ours\n{ours}=======\n{theirs}>>>>>>> theirs\n");
    let straight = block("a = 1\nb = 1\n", "a = 2\nb = 2\n") + "c = 3\n";
    let between = block("a = 2\n", "a = 1\n") + "c = 3\n" + &block("b = 2\n", "b = 1\n");
    assert!(in_another_order(straight.as_bytes(), between.as_bytes()));
    let lost = block("a = 2\n", "a = 1\n") + "c = 3\n" + &block("", "b = 1\n");
    assert!(!in_another_order(straight.as_bytes(), lost.as_bytes()));
    let in_two = block("a = 2\n", "a = 1\n") + &block("b = 2\n", "b = 1\n") + "c = 3\n";
    assert!(!in_another_order(straight.as_bytes(), in_two.as_bytes()));
}

/// How much of a file no edit comes near depends on which of its versions is asked.
#[test]
fn what_is_merged_by_itself_does_not_depend_on_which_side_is_ours() {
    let draw = "    def draw(self, node, rows):\n        new = board.Leaf(station.HARBOUR, \"!=\", prefix=node.prefix)\n        return new\n";
    let class = "class Board(boards.Base):\n    # This is so simple that nothing has to be looked up.\n\n";
    let head = format!("import boards\nfrom tides import station\n\n\n{class}");
    let read = |more: &str| {
        format!("    def read(self, node{more}):\n        # Override\n        return node.value == \"<>\"\n\n")
    };
    let kind = |more: &str| format!("    _kind = station{more}.HARBOUR\n\n");
    let base = format!("{head}{}{}{draw}", kind(""), read(""));
    let strict = "    def strict(self, value):\n        return value + 40\n\n";
    let copied =
        format!("{head}{}{}{strict}{draw}{class}{}{}{draw}", kind(""), read(", strict"), kind("_now"), read(""));
    let moved = format!("{head}\n{}    _kind = station.HARBOUR\n{draw}", read(", encoding"));
    let texts = Versions { base, ours: copied, theirs: moved };
    let [straight, swapped] = [texts.clone(), texts.mirrored()].map(|texts| answer(Lang::Python, &texts));
    assert_eq!((straight.conflicts, straight.way), (swapped.conflicts, swapped.way));
    assert_eq!(bag(&straight.text), bag(&swapped.text));
}

/// One side has a `try` without a handler, which only the grammar forgives: in its own reading nothing is new about that.
#[test]
fn whether_a_side_can_be_read_does_not_depend_on_which_is_ours() {
    let read = "            level = cache.level(gauge.name, gauge.number)\n";
    let handler = "        except Exception:\n            # While the harbour closes, the cache does not work any more\n            level = None\n            cache = None\n";
    let import = "            import tides\n";
    let file = |first: &str, second: &str| {
        format!(
            "def show(gauge):\n    if gauge.level is None:\n        try:\n{first}    else:\n        try:\n{second}        except ImportError:\n            tides = None\n    return level\n"
        )
    };
    let base = file(&format!("{read}{handler}"), import);
    let guarded = format!("            with guard(gauge):\n                    {}", read.trim_start());
    let ours = file(&guarded, &format!("{import}{handler}"));
    let theirs = file(&format!("{read}{handler}            cache_now = None\n"), import);
    let texts = Versions { base, ours, theirs };
    let [straight, swapped] = [texts.clone(), texts.mirrored()].map(|texts| answer(Lang::Python, &texts));
    assert_eq!((straight.way, straight.conflicts), (swapped.way, swapped.conflicts));
    assert_eq!(straight.notes, swapped.notes);
}

fn bag(text: &[u8]) -> BTreeMap<String, usize> {
    let mut bag = BTreeMap::new();
    for word in words(text) {
        *bag.entry(String::from_utf8_lossy(word).into_owned()).or_default() += 1;
    }
    bag
}

/// The tree of a text as nested bags: nodes by kind and tokens, in no order, commas aside. Comments too: some grammars
/// read one above an entry as a part of the entry before it, if there is one.
fn unordered(s: &Scenario, text: &[u8]) -> Option<u64> {
    fn of(node: tree_sitter::Node<'_>, text: &[u8]) -> u64 {
        let mut cursor = node.walk();
        let mut parts: Vec<u64> = node
            .children(&mut cursor)
            .filter(|c| !matches!(c.kind(), "," | ";") && !c.kind().contains("comment"))
            .map(|c| of(c, text))
            .collect();
        parts.sort_unstable();
        let own: &[u8] = if node.child_count() == 0 { &text[node.byte_range()] } else { b"" };
        let start = node.kind().bytes().chain(own.iter().copied().filter(|b| !b.is_ascii_whitespace()));
        let seed = start.fold(0xcbf2_9ce4_8422_2325, |h, b| (h ^ u64::from(b)).wrapping_mul(0x100_0000_01b3));
        parts.into_iter().fold(seed, |h, p| (h ^ p).wrapping_mul(0x9e37_79b9_7f4a_7c15).rotate_left(29))
    }
    trees::parse(s.lang, text).map(|tree| of(tree.root_node(), text))
}
