//! One tree of values: in languages whose entries are dotted paths into it, no path is defined in two ways.
//!
//! The rules are those of TOML v1.0.0, "Keys", "Table" and "Array of Tables". Entries of one kind and one key
//! are found as repetitions elsewhere; here are those that clash across kinds, and what would stand alone in a table that
//! was taken out.

use rustc_hash::{FxHashMap as HashMap, FxHashSet as HashSet};

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

/// The key of the first entry of a path that base has, and that a side took out with all below it: what the other side
/// changed of that, or put into it, is without what it was to stand with. Elements of arrays have no paths of their own.
/// The versions are asked for only if there are paths.
pub(super) fn revived(tree: &Tree<'_>, versions: Sides<'_, '_, '_>) -> Option<NodeId> {
    let mut found = named(tree);
    if found.is_empty() {
        return None;
    }
    let had = versions()?.as_ref().map(named);
    let gone = |path: &u64| !had.ours.contains_key(path) || !had.theirs.contains_key(path);
    found.retain(|path, _| had.base.contains_key(path) && gone(path));
    found.into_values().min()
}

/// The paths that keys name, and those of the tables around them, each with the first key that does; those in elements of
/// arrays aside.
fn named(tree: &Tree<'_>) -> HashMap<u64, NodeId> {
    let mut found = HashMap::default();
    if tree.language.entries().iter().all(|rule| rule.defines.is_none()) {
        return found;
    }
    let mut elements: HashSet<u64> = HashSet::default();
    // Of each entry that keys stand in; nothing, if it is in an element.
    let mut paths: HashMap<NodeId, Option<u64>> = HashMap::default();
    for entry in (0..tree.len() as u32).map(NodeId) {
        let Some(defines) = tree.entry_rule(entry).and_then(|rule| rule.defines) else { continue };
        let Some(key) = tree.key_parts(entry).next() else { continue };
        // A header begins at the root.
        let outer = tree.outward(entry).skip(1).find_map(|outer| paths.get(&outer)).copied();
        let outer = outer.filter(|_| defines == Defines::Value).unwrap_or(Some(0));
        let all: Vec<u64> = outer.map_or(Vec::new(), |outer| {
            let along = parts(tree.node_text(key)).into_iter().scan(outer, |path, part| {
                *path = mix(*path, hash_bytes(16, &part));
                Some(*path)
            });
            along.collect()
        });
        if defines == Defines::Element {
            elements.extend(all.last());
        }
        let known = !all.is_empty() && !all.iter().any(|path| elements.contains(path));
        if known {
            all.iter().for_each(|path| _ = found.entry(*path).or_insert(key));
        }
        paths.insert(entry, all.last().copied().filter(|_| known));
    }
    found
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
