//! Readings of a text as a tree, by the grammar directly: nothing of pleach's own parsing.

use std::collections::HashMap;

use pleach::{Version, Versions};
use tree_sitter::{Node, Tree};

use super::Lang;

/// The grammar's tree, if the text is UTF-8 and has no error.
pub fn parse(lang: Lang, text: &[u8]) -> Option<Tree> {
    std::str::from_utf8(text).ok()?;
    let tree = lang.parser().parse(text, None)?;
    (!tree.root_node().has_error()).then_some(tree)
}

pub fn parses(lang: Lang, text: &[u8]) -> bool {
    parse(lang, text).is_some()
}

/// A text without the signs that only separate: `+` between bounds, of which none comes first (The Rust Reference,
/// "Trait and lifetime bounds"). Commas and the like are no words anyway.
pub fn without_separators(lang: Lang, text: &[u8]) -> Vec<u8> {
    let mut text = text.to_vec();
    let Some(tree) = parse(lang, &text).filter(|_| lang == Lang::Rust) else { return text };
    let mut stack = vec![tree.root_node()];
    while let Some(node) = stack.pop() {
        let mut cursor = node.walk();
        for child in node.children(&mut cursor) {
            if node.kind() == "trait_bounds" && child.kind() == "+" {
                text[child.start_byte()] = b' ';
            }
            stack.push(child);
        }
    }
    text
}

/// A text in which the `=` behind a keyword of a call is a part of that word: under another keyword stands another
/// argument (The Python Language Reference, "Calls"), which comes with a sign of its own.
pub fn with_keywords_whole(lang: Lang, text: &[u8]) -> Vec<u8> {
    let mut signs = Vec::new();
    let tree = parse(lang, text).filter(|_| lang == Lang::Python);
    let mut stack: Vec<Node> = tree.iter().map(Tree::root_node).collect();
    while let Some(node) = stack.pop() {
        let mut cursor = node.walk();
        for child in node.children(&mut cursor) {
            if node.kind() == "keyword_argument" && child.kind() == "=" {
                signs.push(child.start_byte());
            }
            stack.push(child);
        }
    }
    signs.sort_unstable();
    let (mut whole, mut at) = (Vec::with_capacity(text.len() + signs.len()), 0);
    for sign in signs {
        whole.extend_from_slice(&text[at..sign]);
        // A byte of a word, and the end of that word.
        whole.extend_from_slice(b"\xff ");
        at = sign + 1;
    }
    whole.extend_from_slice(&text[at..]);
    whole
}

/// A text with a line for each name that an import takes: they are a set, over however many statements it is spread (The
/// Python Language Reference, "The import statement"; The Rust Reference, "Use declarations"). Comments in them are left out.
pub fn imports_one_by_one(lang: Lang, text: &[u8]) -> Vec<u8> {
    let mut imports = Vec::new();
    let tree = parse(lang, text);
    let mut stack: Vec<Node> = tree.iter().map(Tree::root_node).collect();
    while let Some(node) = stack.pop() {
        match node.kind() {
            "import_from_statement" | "use_declaration" => imports.push(node),
            _ => stack.extend(node.children(&mut node.walk())),
        }
    }
    imports.sort_by_key(Node::start_byte);
    let (mut whole, mut at) = (Vec::with_capacity(text.len()), 0);
    for import in imports {
        let of = |node: Node| text[node.byte_range()].to_vec();
        let names: Vec<Vec<u8>> = match import.child_by_field_name("argument") {
            Some(used) => taken(used, &[], text),
            None => import.children_by_field_name("name", &mut import.walk()).map(of).collect(),
        };
        // What is taken stands behind all else: a path is a part of each name in Rust, and stands before it in Python.
        let rest = import.child_by_field_name("argument").or_else(|| import.child_by_field_name("module_name"));
        let Some(rest) = rest.filter(|_| !names.is_empty()) else { continue };
        let (start, end) = (import.start_byte(), import.end_byte());
        let (before, middle, behind) = match lang {
            Lang::Rust => (start..rest.start_byte(), &b""[..], rest.end_byte()..end),
            _ => (start..rest.end_byte(), &b" import "[..], end..end),
        };
        whole.extend_from_slice(&text[at..start]);
        let lines = names.iter().map(|name| [&text[before.clone()], middle, name, &text[behind.clone()]].concat());
        whole.extend(lines.collect::<Vec<_>>().join(&b'\n'));
        at = import.end_byte();
    }
    whole.extend_from_slice(&text[at..]);
    whole
}

/// What a `use` takes, each with all of its path.
fn taken(used: Node<'_>, path: &[u8], text: &[u8]) -> Vec<Vec<u8>> {
    let with = |rest: &[u8]| [path, rest].concat();
    match used.kind() {
        "scoped_use_list" => {
            let own = used.child_by_field_name("path").map_or(&[][..], |path| &text[path.byte_range()]);
            let list = used.child_by_field_name("list").expect("it has one");
            taken(list, &with(&[own, b"::"].concat()), text)
        }
        "use_list" => {
            let entries = used.named_children(&mut used.walk()).collect::<Vec<Node>>();
            let entries = entries.into_iter().filter(|entry| !entry.is_extra());
            entries.flat_map(|entry| taken(entry, path, text)).collect()
        }
        _ => vec![with(&text[used.byte_range()])],
    }
}

#[test]
fn imports_are_parted_by_their_names() {
    let python = b"from a.b import (\n    c,\n    d as e,\n)\nfrom f import *\nx = 1\n";
    let parted = b"from a.b import c\nfrom a.b import d as e\nfrom f import *\nx = 1\n";
    assert_eq!(imports_one_by_one(Lang::Python, python), parted);
    let rust = b"pub use a::{b, c::{self, d}};\nfn e() {}\n";
    assert_eq!(
        imports_one_by_one(Lang::Rust, rust),
        b"pub use a::b;\npub use a::c::self;\npub use a::c::d;\nfn e() {}\n"
    );
}

#[test]
fn a_keyword_and_its_sign_are_one_word() {
    let text = b"draw(a=b, *c, d == e)\nf = 1\n";
    assert_eq!(with_keywords_whole(Lang::Python, text), b"draw(a\xff b, *c, d == e)\nf = 1\n");
    assert_eq!(with_keywords_whole(Lang::Toml, b"a=1\n"), b"a=1\n");
}

/// What a scope defines, or a call passes, by name, and how often: the things that may stand only once.
///
/// Python: parameters and keyword arguments ("a syntax error if repeated", Language Reference 6.3.4 and
/// 8.7), functions and classes of one block. Rust: items of one module (The Rust Reference, "Namespaces"). TOML:
/// keys of one table ("Defining a key multiple times is invalid", TOML v1.0.0). With `told`, those of one name that
/// decorators or attributes tell apart are not one thing. What stands in the second of two types of one name is not in
/// the first.
fn definitions(lang: Lang, text: &[u8], told: bool) -> HashMap<String, usize> {
    let mut found = HashMap::new();
    let Some(tree) = parse(lang, text) else { return found };
    // (node, the path of names to its scope)
    let mut stack = vec![(tree.root_node(), String::new())];
    let mut calls = 0usize;
    let mut scopes: HashMap<String, usize> = HashMap::new();
    while let Some((node, scope)) = stack.pop() {
        let inner = match name(lang, node, text) {
            Some(Name::Scope(name)) => {
                for apart in if told { told_apart_by(node, text) } else { vec![String::new()] } {
                    *found.entry(format!("{scope}/{name}{apart}")).or_default() += 1;
                }
                let inner = format!("{scope}/{name}");
                let earlier = scopes.entry(inner.clone()).or_default();
                *earlier += 1;
                // A table of TOML may be written in parts.
                if *earlier > 1 && lang != Lang::Toml { format!("{inner}#{earlier}") } else { inner }
            }
            Some(Name::Plain(name)) => {
                for apart in if told { told_apart_by(node, text) } else { vec![String::new()] } {
                    *found.entry(format!("{scope}/{name}{apart}")).or_default() += 1;
                }
                scope
            }
            Some(Name::Block) => {
                calls += 1;
                format!("{scope}/#{calls}")
            }
            None => scope,
        };
        let mut cursor = node.walk();
        let children: Vec<Node> = node.children(&mut cursor).collect();
        stack.extend(children.into_iter().rev().map(|c| (c, inner.clone())));
    }
    found
}

/// The most often that any one thing of a name stands in one scope, whatever the scope: comparable
/// between texts in which scopes moved.
pub fn repeats(lang: Lang, text: &[u8], told: bool) -> HashMap<String, usize> {
    let mut most: HashMap<String, usize> = HashMap::new();
    for (path, n) in definitions(lang, text, told) {
        let name = path.rsplit('/').next().unwrap_or_default().to_owned();
        let at = most.entry(name).or_default();
        *at = (*at).max(n);
    }
    most
}

/// Something that stands more than once in one scope of an answer, and more often than in that of either side: a second
/// definition "that neither side had". Where both sides have several of a name, each may have put in another: an
/// accessor of a property, or, if base has several too, what holds under another condition. Then only those that nothing
/// else tells apart count.
pub fn repeated(lang: Lang, versions: Versions<&[u8]>, answer: &[u8]) -> Option<(String, usize)> {
    let beyond = |told: bool| {
        let had = versions.map(|text| repeats(lang, text, told));
        let often = |v: Version, name: &String| had.get(v).get(name).copied().unwrap_or(0);
        let several = |name: &String| {
            let by = if lang == Lang::Python { &[Version::Ours, Version::Theirs][..] } else { &Version::ALL };
            !told && by.iter().all(|v| often(*v, name) > 1)
        };
        let most = |name: &String| often(Version::Ours, name).max(often(Version::Theirs, name)).max(1);
        repeats(lang, answer, told).into_iter().find(|(name, n)| *n > most(name) && !several(name))
    };
    beyond(false).or_else(|| beyond(true))
}

/// The decorators of a definition, each by itself, or all its attributes; nothing, if it has none.
fn told_apart_by(node: Node<'_>, text: &[u8]) -> Vec<String> {
    let said = |n: Node<'_>| format!(" {}", String::from_utf8_lossy(&text[n.byte_range()]).replace('/', " "));
    let mut cursor = node.walk();
    let decorated = node.parent().filter(|parent| parent.kind() == "decorated_definition");
    let kids: Vec<Node> = decorated.into_iter().flat_map(|d| d.children(&mut cursor).collect::<Vec<_>>()).collect();
    let decorators: Vec<String> = kids.into_iter().filter(|n| n.kind() == "decorator").map(said).collect();
    let before = std::iter::successors(node.prev_sibling(), Node::prev_sibling);
    let attributes = before.take_while(|n| n.kind() == "attribute_item" || n.kind().contains("comment"));
    let attributes: String = attributes.filter(|n| n.kind() == "attribute_item").map(said).collect();
    if decorators.is_empty() { vec![attributes] } else { decorators }
}

enum Name {
    /// Defines a name, and holds names of its own.
    Scope(String),
    /// Defines or passes a name.
    Plain(String),
    /// Holds names, without one.
    Block,
}

fn name(lang: Lang, node: Node<'_>, text: &[u8]) -> Option<Name> {
    let field = |f: &str| node.child_by_field_name(f).and_then(|n| n.utf8_text(text).ok()).map(str::to_owned);
    match (lang, node.kind()) {
        (Lang::Python, "function_definition" | "class_definition") => Some(Name::Scope(field("name")?)),
        (Lang::Python, "argument_list" | "block") => Some(Name::Block),
        (Lang::Python, "keyword_argument") => Some(Name::Plain(format!("{}=", field("name")?))),
        (Lang::Rust, "mod_item" | "trait_item") => Some(Name::Scope(format!("type {}", field("name")?))),
        (Lang::Rust, "struct_item" | "enum_item" | "union_item" | "type_item") => {
            Some(Name::Scope(format!("type {}", field("name")?)))
        }
        (Lang::Rust, "function_item" | "function_signature_item") => {
            Some(Name::Scope(format!("fn {}", field("name")?)))
        }
        // A constant without a name may stand any number of times (The Rust Reference, "Unnamed constant").
        (Lang::Rust, "static_item" | "const_item") => {
            Some(Name::Plain(format!("value {}", field("name").filter(|name| name != "_")?)))
        }
        // What a use declaration brings into scope must differ ("Use declarations", "Ambiguities").
        (Lang::Rust, "identifier" | "self" | "scoped_identifier" | "use_as_clause") => {
            node.parent().filter(|parent| matches!(parent.kind(), "use_list" | "use_declaration"))?;
            // An attribute may say that only one of several is there at all ("Conditional compilation").
            let around = std::iter::successors(Some(node), |n| n.parent()).find(|n| n.kind() == "use_declaration")?;
            if around.prev_named_sibling().is_some_and(|before| before.kind() == "attribute_item") {
                return None;
            }
            let last = ["alias", "name"].into_iter().find_map(field);
            Some(Name::Plain(format!("use {}", last.or_else(|| node.utf8_text(text).ok().map(str::to_owned))?)))
        }
        (Lang::Rust, "block" | "declaration_list" | "field_initializer_list") => Some(Name::Block),
        (Lang::Rust, "field_declaration" | "enum_variant") => Some(Name::Plain(field("name")?)),
        (Lang::Toml, "table") => {
            let key = node.named_child(0)?.utf8_text(text).ok()?;
            // A table is the value of its key ("Table": it may not be defined as another one too).
            Some(Name::Scope(key.replace([' ', '"', '\''], "")))
        }
        (Lang::Toml, "table_array_element" | "inline_table") => Some(Name::Block),
        (Lang::Toml, "pair") => {
            let key = node.named_child(0)?.utf8_text(text).ok()?;
            Some(Name::Plain(key.replace([' ', '"', '\''], "")))
        }
        _ => None,
    }
}

#[test]
fn signs_between_bounds_are_left_out() {
    let without = |text: &str| String::from_utf8(without_separators(Lang::Rust, text.as_bytes())).expect("it is text");
    assert_eq!(without("fn f<T: A + B>() -> u8 {\n    1 + 2\n}\n"), "fn f<T: A   B>() -> u8 {\n    1 + 2\n}\n");
}

#[test]
fn repeated_names_are_found() {
    let most = |lang, text: &str, name: &str| repeats(lang, text.as_bytes(), false).get(name).copied().unwrap_or(0);
    assert_eq!(most(Lang::Python, "f(a=1, b=2, a=3)\n", "a="), 2);
    assert_eq!(most(Lang::Python, "f(a=1)\nf(a=1)\n", "a="), 1);
    assert_eq!(most(Lang::Python, "def f(): pass\ndef f(): pass\n", "f"), 2);
    assert_eq!(most(Lang::Rust, "fn f() {}\nmod m { fn f() {} }\n", "fn f"), 1);
    assert_eq!(most(Lang::Rust, "fn f() {}\nfn f() {}\n", "fn f"), 2);
    assert_eq!(most(Lang::Rust, "enum E {\n    A,\n}\nenum E {\n    A,\n}\n", "A"), 1);
    assert_eq!(most(Lang::Rust, "enum E {\n    A,\n    A,\n}\n", "A"), 2);
    assert_eq!(most(Lang::Rust, "extern \"C\" {\n    fn f();\n    fn f();\n}\n", "fn f"), 2);
    assert_eq!(most(Lang::Rust, "use a::{b, c::d};\nuse e::{self as b, d};\n", "use b"), 2);
    assert_eq!(most(Lang::Rust, "#[cfg(a)]\nuse a::{b, c};\n#[cfg(b)]\nuse e::{b, c};\nuse f::c;\n", "use b"), 0);
    assert_eq!(most(Lang::Rust, "use a::{b, c::d};\nuse e::{self as b, d};\n", "use d"), 2);
    assert_eq!(most(Lang::Toml, "k = 1\n[k]\na = 2\n", "k"), 2);
    assert_eq!(most(Lang::Toml, "[a]\nk = 1\nk = 2\n[b]\nk = 3\n", "k"), 2);
}

#[test]
fn a_second_definition_is_found_unless_both_sides_have_several_that_something_tells_apart() {
    let found = |lang, base: &str, ours: &str, theirs: &str, answer: &str| {
        let versions = Versions { base, ours, theirs }.map(str::as_bytes);
        repeated(lang, versions, answer.as_bytes()).map(|(_, n)| n)
    };
    let [a, b, c, d] = ["a", "b", "c", "d"].map(|on| format!("#[cfg({on})]\nconst STEP: u8 = 1;\n"));
    let sides = [format!("{a}{b}{c}"), format!("{a}{b}{d}")];
    assert_eq!(found(Lang::Rust, &format!("{a}{b}"), &sides[0], &sides[1], &format!("{a}{b}{c}{d}")), None);
    assert_eq!(found(Lang::Rust, &format!("{a}{b}"), &sides[0], &sides[1], &format!("{a}{b}{c}{c}")), Some(2));
    assert_eq!(found(Lang::Rust, &a, &format!("{a}{c}"), &format!("{a}{d}"), &format!("{a}{c}{d}")), Some(3));
    let [get, set, delete] =
        ["property", "level.setter", "level.deleter"].map(|by| format!("@{by}\ndef level(): pass\n"));
    let (ours, theirs) = (format!("{get}{set}"), format!("{get}{delete}"));
    assert_eq!(found(Lang::Python, &get, &ours, &theirs, &format!("{get}{set}{delete}")), None);
    assert_eq!(found(Lang::Python, &get, &ours, &ours, &format!("{get}{set}{set}")), Some(2));
    assert_eq!(found(Lang::Python, "", &get, &set, &format!("{get}{set}")), Some(2));
    let theirs = format!("{get}@logged\n{set}");
    assert_eq!(found(Lang::Python, &get, &ours, &theirs, &format!("{get}{set}@logged\n{set}")), Some(2));
}
