//! One tree of values: in languages whose entries are dotted paths into it, no path is defined in two ways.
//!
//! The rules are those of TOML v1.0.0, "Keys", "Table" and "Array of Tables". Entries of one kind and one key
//! are found as repetitions elsewhere; here are those that clash across kinds, and what would stand alone in a table that
//! was taken out.

use rustc_hash::FxHashMap as HashMap;

use super::census::key_paths;
use super::sound::Sides;
use crate::grammar::Defines;
use crate::syntax::{NodeId, Part, Tree, hash_bytes, mix};

/// How a path came to be defined.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Claim {
    /// As a table around one that a header names: a header of its own may follow.
    Around,
    /// By a header.
    Table,
    /// By a dotted key, as the table of what follows the dot.
    Dotted,
    /// As a value.
    Value,
    /// As an array of tables, of so many elements yet.
    Array(usize),
}

/// A path, by its number: each is one part longer than another, so that long ones take no more room than short ones.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
struct Path(usize);

impl Path {
    const ROOT: Path = Path(0);
}

/// The key of the first entry that defines a path which an earlier one defined as something else.
pub(super) fn redefined(tree: &Tree<'_>) -> Option<NodeId> {
    if tree.language.entries().iter().all(|rule| rule.defines.is_none()) {
        return None;
    }
    let mut claims = Claims { longer: HashMap::default(), claimed: vec![None] };
    claims.all_in(tree, NodeId::ROOT, Path::ROOT)
}

/// The key of the first entry that puts something into a table which base has, by dotted keys, and a side took out
/// whole: what the other side put in there is without what it was to stand with. So is a table with nothing in it that a
/// side has not any more.
/// The versions are asked for only if there are such keys.
pub(super) fn revived(tree: &Tree<'_>, versions: Sides<'_, '_, '_>) -> Option<NodeId> {
    let (mut found, mut empty) = (dotted(tree), written(tree));
    empty.retain(|_, key| is_empty(tree, *key));
    if found.is_empty() && empty.is_empty() {
        return None;
    }
    let versions = versions()?;
    for (found, tables) in [(&mut found, dotted as fn(&Tree<'_>) -> Tables), (&mut empty, written)] {
        let had = versions.as_ref().map(tables);
        let gone = |table: &u64| !had.ours.contains_key(table) || !had.theirs.contains_key(table);
        found.retain(|table, _| had.base.contains_key(table) && gone(table));
    }
    found.into_values().chain(empty.into_values()).min()
}

/// Tables by their paths, each with a key that names it.
type Tables = HashMap<u64, NodeId>;

/// Whether what a key names is a table with nothing in it.
fn is_empty(tree: &Tree<'_>, key: NodeId) -> bool {
    let entry = tree.node(key).parent;
    let listed = std::iter::once(entry).chain(tree.kids(entry).iter().copied());
    let mut lists = listed.filter(|n| tree.list_rule(*n).is_some());
    lists.next().is_some_and(|list| tree.part(list, Part::Entry).is_empty())
}

/// The tables that are written as such, by headers and as values, and those around them.
fn written(tree: &Tree<'_>) -> Tables {
    let mut tables = HashMap::default();
    // Of each entry that is a table.
    let mut paths: HashMap<NodeId, u64> = HashMap::default();
    for entry in (0..tree.len() as u32).map(NodeId) {
        let Some(defines) = tree.entry_rule(entry).and_then(|rule| rule.defines) else { continue };
        let Some(key) = tree.key_parts(entry).next() else { continue };
        // A header begins at the root.
        let around = tree.outward(entry).skip(1).find_map(|outer| paths.get(&outer));
        let mut table = around.copied().filter(|_| defines == Defines::Value).unwrap_or_default();
        let value = tree.kids(tree.node(key).parent).last().map(|last| tree.node(*last).kind);
        let value = value.is_some_and(|kind| tree.language.paths().is_some_and(|rules| rules.lists.contains(&kind)));
        if defines == Defines::Value && !value {
            continue;
        }
        for part in parts(tree.node_text(key)) {
            table = mix(table, hash_bytes(16, &part));
            tables.entry(table).or_insert(key);
        }
        paths.insert(entry, table);
        // It names itself, whatever stands below it.
        tables.insert(table, key);
    }
    tables
}

/// The tables that dotted keys stand in, and the first key of each.
fn dotted(tree: &Tree<'_>) -> Tables {
    let mut tables = HashMap::default();
    if tree.language.entries().iter().all(|rule| rule.defines.is_none()) {
        return tables;
    }
    let paths = key_paths(tree);
    for entry in (0..tree.len() as u32).map(NodeId) {
        if tree.entry_rule(entry).is_none_or(|rule| rule.defines != Some(Defines::Value)) {
            continue;
        }
        let Some(key) = tree.key_parts(entry).next() else { continue };
        let parts = parts(tree.node_text(key));
        let mut table = paths[tree.node(entry).parent.index()];
        for part in parts.iter().take(parts.len().saturating_sub(1)) {
            table = mix(table, hash_bytes(16, part));
            tables.entry(table).or_insert(key);
        }
    }
    tables
}

struct Claims {
    /// The path that is one part longer.
    longer: HashMap<(Path, Vec<u8>), Path>,
    /// What each path was defined as, if it was.
    claimed: Vec<Option<Claim>>,
}

impl Claims {
    fn all_in(&mut self, tree: &Tree<'_>, list: NodeId, table: Path) -> Option<NodeId> {
        for entry in tree.part(list, Part::Entry) {
            let core = tree.node(*entry).core;
            let Some(defines) = tree.entry_rule(*entry).and_then(|rule| rule.defines) else { continue };
            let Some(key) = tree.kids(core).iter().copied().find(|k| !tree.node(*k).anonymous) else { continue };
            let parts = parts(tree.node_text(key));
            let at = match defines {
                Defines::Value => self.value(table, parts),
                Defines::Table => self.table(parts),
                Defines::Element => self.element(parts),
            };
            let Some(at) = at else { return Some(key) };
            if defines != Defines::Value
                && let Some(clash) = self.all_in(tree, core, at)
            {
                return Some(clash);
            }
        }
        None
    }

    /// A path with one part more.
    fn below(&mut self, path: Path, part: Vec<u8>) -> Path {
        let next = Path(self.claimed.len());
        let found = *self.longer.entry((path, part)).or_insert(next);
        if found == next {
            self.claimed.push(None);
        }
        found
    }

    /// What a path was defined as.
    fn claim(&mut self, path: Path) -> &mut Option<Claim> {
        &mut self.claimed[path.0]
    }

    /// The path of a key in `table`, if it may have a value.
    fn value(&mut self, table: Path, mut parts: Vec<Vec<u8>>) -> Option<Path> {
        let last = parts.pop()?;
        let mut at = table;
        for part in parts {
            at = self.below(at, part);
            match self.claim(at).get_or_insert(Claim::Dotted) {
                Claim::Dotted | Claim::Around => {}
                _ => return None,
            }
        }
        at = self.below(at, last);
        self.claim(at).replace(Claim::Value).is_none().then_some(at)
    }

    /// The path of a table, if a header may define it.
    fn table(&mut self, mut parts: Vec<Vec<u8>>) -> Option<Path> {
        let last = parts.pop()?;
        let around = self.around(parts)?;
        let at = self.below(around, last);
        match self.claim(at).replace(Claim::Table) {
            None | Some(Claim::Around) => Some(at),
            Some(_) => None,
        }
    }

    /// The path of one more element of an array of tables, if there may be one.
    fn element(&mut self, mut parts: Vec<Vec<u8>>) -> Option<Path> {
        let last = parts.pop()?;
        let around = self.around(parts)?;
        let at = self.below(around, last);
        let n = match self.claim(at) {
            None => 1,
            Some(Claim::Array(n)) => *n + 1,
            Some(_) => return None,
        };
        *self.claim(at) = Some(Claim::Array(n));
        Some(self.below(at, element(n)))
    }

    /// The path of the tables around a header's last part.
    fn around(&mut self, parts: Vec<Vec<u8>>) -> Option<Path> {
        let mut at = Path::ROOT;
        for part in parts {
            at = self.below(at, part);
            match *self.claim(at).get_or_insert(Claim::Around) {
                Claim::Value => return None,
                Claim::Array(n) => at = self.below(at, element(n)),
                Claim::Around | Claim::Table | Claim::Dotted => {}
            }
        }
        Some(at)
    }
}

/// A part that no key can be.
fn element(n: usize) -> Vec<u8> {
    format!("\n{n}").into_bytes()
}

/// The parts of a dotted key, without quotes and the blanks around dots.
fn parts(key: &[u8]) -> Vec<Vec<u8>> {
    let mut parts = vec![Vec::new()];
    let mut quote = None;
    for &byte in key {
        match (quote, byte) {
            (None, b'"' | b'\'') => quote = Some(byte),
            (Some(open), _) if open == byte => quote = None,
            (None, b'.') => parts.push(Vec::new()),
            (None, b' ' | b'\t') => {}
            _ => parts.last_mut().expect("never empty").push(byte),
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::syntax::Parsed;

    fn clash(text: &str) -> Option<String> {
        let tree = Parsed::new(text.as_bytes(), crate::grammar::by_name("TOML").unwrap()).unwrap().tree();
        redefined(&tree).map(|key| String::from_utf8_lossy(tree.node_text(key)).into_owned())
    }

    /// The invalid examples of TOML v1.0.0, "Keys", "Table", "Inline Table", "Array of Tables".
    #[test]
    fn what_the_specification_calls_invalid_is_found() {
        for (text, key) in [
            ("name = \"Tom\"\nname = \"Pradyun\"\n", "name"),
            ("spelling = 1\n\"spelling\" = 2\n", "\"spelling\""),
            ("fruit.apple = 1\nfruit.apple.smooth = true\n", "fruit.apple.smooth"),
            ("[fruit]\napple = \"red\"\n\n[fruit]\norange = \"orange\"\n", "fruit"),
            ("[fruit]\napple = \"red\"\n\n[fruit.apple]\ntexture = \"smooth\"\n", "fruit.apple"),
            ("[fruit]\napple.color = \"red\"\napple.taste.sweet = true\n\n[fruit.apple]\n", "fruit.apple"),
            ("[fruit]\napple.color = \"red\"\napple.taste.sweet = true\n\n[fruit.apple.taste]\n", "fruit.apple.taste"),
            ("[fruit.physical]\ncolor = \"red\"\n\n[[fruit]]\nname = \"apple\"\n", "fruit"),
            (
                "[[fruits]]\nname = \"apple\"\n\n[[fruits.varieties]]\nname = \"red\"\n\n[fruits.varieties]\n",
                "fruits.varieties",
            ),
            ("[[fruits]]\n\n[fruits.physical]\ncolor = \"red\"\n\n[[fruits.physical]]\n", "fruits.physical"),
            ("fruits = []\n\n[[fruits]]\n", "fruits"),
            ("[product]\ntype = { name = \"Nail\" }\ntype.edible = false\n", "type.edible"),
        ] {
            assert_eq!(clash(text).as_deref(), Some(key), "{text}");
        }
    }

    /// The valid examples of the same sections.
    #[test]
    fn what_the_specification_calls_valid_is_not() {
        for text in [
            "fruit.apple.smooth = true\nfruit.orange = 2\n",
            "apple.type = 1\norange.type = 1\napple.skin = 2\norange.skin = 2\n",
            "[x.y.z.w]\n\n[x]\n",
            "[fruit.apple]\n[animal]\n[fruit.orange]\n",
            "[fruit]\napple.color = \"red\"\napple.taste.sweet = true\n\n[fruit.apple.texture]\nsmooth = true\n",
            "[[products]]\nname = 1\n\n[[products]]\n\n[[products]]\nname = 2\n",
            "[[fruits]]\nname = 1\n[fruits.physical]\na = 1\n[[fruits.varieties]]\nname = 1\n[[fruits.varieties]]\nname = 2\n\
             [[fruits]]\nname = 2\n[fruits.physical]\na = 1\n[[fruits.varieties]]\nname = 3\n",
            "3.14159 = 1\n\"3.14159\" = 2\n",
        ] {
            assert_eq!(clash(text), None, "{text}");
        }
    }
}
