//! Inputs that must not outlast the deadline or overflow a stack (K7).

use pleach::Versions;

use super::edited::Lang;

/// An input that nests deeply, or repeats something often.
pub struct Hostile {
    pub name: &'static str,
    pub lang: Lang,
    /// Three versions that disagree at the start and at the end of one line, so that lines conflict and
    /// the trees are asked.
    pub versions: Versions<Vec<u8>>,
}

/// A middle between two places where the sides differ.
fn around(lang: Lang, name: &'static str, before: &str, middle: &str, after: &str) -> Hostile {
    let text = |a: &str, z: &str| {
        let end = if lang == Lang::Rust { "}\n" } else { "" };
        let start = if lang == Lang::Rust { "fn f() {\n" } else { "" };
        let (call, stop) = match lang {
            Lang::Python => (format!("first = call({a}, 1)"), format!("last = call(2, {z})")),
            Lang::Rust => (format!("call({a}, 1);"), format!("call(2, {z});")),
            Lang::Toml => (format!("first = [{a}, 1]"), format!("last = [2, {z}]")),
        };
        format!("{start}{call}\n{before}{middle}{after}\n{stop}\n{end}").into_bytes()
    };
    // Ours and theirs differ in one line each in different items, and in the middle's neighbourhood.
    let both = |versions: Versions<(&str, &str)>| versions.map(|(a, z)| text(a, z));
    let mut versions = both(Versions { base: ("10", "20"), ours: ("11", "20"), theirs: ("10", "21") });
    // A line that both changed, one in each item, right beside the hostile one.
    let beside = |x: u32, y: u32| match lang {
        Lang::Python => format!("beside = call({x}, {y})\n"),
        Lang::Rust => format!("const BESIDE: [u32; 2] = [{x}, {y}];\n"),
        Lang::Toml => format!("beside = [{x}, {y}]\n"),
    };
    for (version, line) in
        [(&mut versions.base, beside(1, 1)), (&mut versions.ours, beside(2, 1)), (&mut versions.theirs, beside(1, 2))]
    {
        version.splice(0..0, line.into_bytes());
    }
    Hostile { name, lang, versions }
}

/// Inputs that nest `deep` levels, or repeat something `deep` times.
pub fn hostile(deep: usize) -> Vec<Hostile> {
    use Lang::{Python, Rust, Toml};
    let r = |s: &str, n: usize| s.repeat(n);
    let nested_if: String = (0..2_000).map(|n| format!("{}if x:\n", " ".repeat(n))).collect();
    let nested_if = format!("{nested_if}{}pass", " ".repeat(2_000));
    let some_if: String = (0..90).map(|n| format!("{}if x:\n", "    ".repeat(n))).collect();
    let some_if = format!("{some_if}{}pass", "    ".repeat(90));
    let elifs: String = (0..deep.min(10_000)).map(|n| format!("elif x == {n}:\n    pass\n")).collect();
    let else_ifs: String = (0..deep.min(10_000)).map(|n| format!("else if x == {n} {{\n}}\n")).collect();
    let numbers: String = (0..deep.min(10_000)).map(|n| format!("    {n},\n")).collect();
    let pairs: String = (0..deep.min(10_000)).map(|n| format!("    'k{n}': {n},\n")).collect();
    let keywords: String = (0..deep.min(10_000)).map(|n| format!("    k{n}={n},\n")).collect();
    let functions: String = (0..deep.min(10_000)).map(|n| format!("def f{n}():\n    return {n}\n\n\n")).collect();
    let same: String = (0..deep.min(10_000)).map(|_| "same(1)\n").collect();
    let items: String = (0..deep.min(10_000)).map(|n| format!("fn f{n}() {{}}\n")).collect();
    let tables: String = (0..deep.min(10_000)).map(|n| format!("[t{n}]\nk = {n}\n")).collect();
    let arrays: String = (0..deep.min(10_000)).map(|n| format!("[[t]]\nname = 'n{n}'\n")).collect();
    let rust_numbers: String = (0..deep.min(10_000)).map(|n| format!("    {n},\n")).collect();
    let arms: String = (0..deep.min(5_000)).map(|n| format!("{n} => {n},\n")).collect();
    vec![
        around(Python, "round brackets", "x = ", &format!("{}1{}", r("(", deep), r(")", deep)), ""),
        around(Python, "square brackets", "x = ", &format!("{}1{}", r("[", deep), r("]", deep)), ""),
        around(Python, "curly brackets", "x = ", &format!("{}1{}", r("{1:", deep), r("}", deep)), ""),
        around(Python, "brackets that only open", "x = ", &r("(", deep), ""),
        around(Python, "brackets that only close", "x = ", &r(")", deep), ""),
        around(Python, "brackets of all kinds that only open", "x = ", &r("([{", deep / 3), ""),
        around(Python, "calls in calls", "x = ", &format!("{}1{}", r("f(", deep), r(")", deep)), ""),
        around(Python, "399 brackets", "x = ", &format!("{}1{}", r("(", 399), r(")", 399)), ""),
        around(Python, "399 calls with arguments", "x = ", &format!("{}1{}", r("f(a, k=", 399), r(")", 399)), ""),
        around(Python, "indentation", "", &nested_if, ""),
        around(Python, "90 levels of if", "", &some_if, ""),
        around(Python, "attributes", "x = a", &r(".a", deep), ""),
        around(Python, "subscripts", "x = a", &r("[0]", deep), ""),
        around(Python, "calls of calls", "x = a", &r("()", deep), ""),
        around(Python, "a chain of methods", "x = a", &r(".f(1)", deep), ""),
        around(Python, "not not", "x = ", &r("not ", deep), "1"),
        around(Python, "minus minus", "x = ", &r("-", deep), "1"),
        around(Python, "await await", "x = ", &r("await ", deep), "y"),
        around(Python, "lambdas", "x = ", &r("lambda: ", deep), "1"),
        around(Python, "conditional expressions", "x = ", &r("1 if y else ", deep), "1"),
        around(Python, "a sum of many terms", "x = 1", &r("+1", deep), ""),
        around(Python, "powers", "x = 1", &r("**1", deep), ""),
        around(Python, "and and", "x = 1", &r(" and 1", deep), ""),
        around(Python, "a comparison of many terms", "x = 1", &r("<1", deep), ""),
        around(Python, "many targets", "", &r("x = ", deep), "1"),
        around(Python, "many texts side by side", "x = ", &r("'a' ", deep), ""),
        around(Python, "statements on one line", "", &r("x;", deep), "x"),
        around(Python, "elif", "if x:\n    pass\n", &elifs, ""),
        around(Python, "a text without end", "x = '''", &r("a\n", deep), ""),
        around(Python, "a list of many", "x = [\n", &numbers, "]"),
        around(Python, "a dict of many", "x = {\n", &pairs, "}"),
        around(Python, "a call with many keywords", "f(\n", &keywords, ")"),
        around(Python, "many functions", "", &functions, ""),
        around(Python, "many equal statements", "", &same, ""),
        around(Python, "nested f-strings", "x = ", &format!("{}1{}", r("f'{", deep), r("}'", deep)), ""),
        around(Python, "a line of a million letters", "x = ", &r("a", 1_000_000), ""),
        around(Python, "decorators", "", &r("@d\n", deep.min(10_000)), "def f(): pass"),
        around(Python, "stars in a pattern", "match x:\n    case ", &r("a | ", deep), "b: pass"),
        around(Rust, "round brackets", "let x = ", &format!("{}1{}", r("(", deep), r(")", deep)), ";"),
        around(Rust, "blocks", "let x = ", &format!("{}1{}", r("{", deep), r("}", deep)), ";"),
        around(Rust, "references", "let x = ", &r("&", deep), "1;"),
        around(Rust, "not not", "let x = ", &r("!", deep), "1;"),
        around(Rust, "a sum of many terms", "let x = 1", &r("+1", deep), ";"),
        around(Rust, "casts", "let x = 1", &r(" as u8", deep), ";"),
        around(Rust, "question marks", "let x = y", &r("?", deep), ";"),
        around(Rust, "a chain of methods", "let x = y", &r(".f(1)", deep), ";"),
        around(Rust, "a chain of fields", "let x = y", &r(".f", deep), ";"),
        around(Rust, "types in types", "let x: ", &format!("{}u8{}", r("Vec<", deep), r(">", deep)), " = 1;"),
        around(Rust, "pointers to pointers", "let x: ", &r("*const ", deep), "u8 = 1;"),
        around(Rust, "closures", "let x = ", &r("|| ", deep), "1;"),
        around(Rust, "returns", "", &r("return ", deep), "1;"),
        around(Rust, "paths", "let x = a", &r("::a", deep), ";"),
        around(Rust, "comments in comments", "", &format!("{}{}", r("/*", deep), r("*/", deep)), ""),
        around(Rust, "else if", "if x {\n}\n", &else_ifs, ""),
        around(Rust, "if without else, one line", "", &r("if x {} else ", deep), "{}"),
        around(Rust, "assignments", "", &r("x = ", deep), "1;"),
        around(Rust, "ranges", "let x = 1", &r("..1", deep), ";"),
        around(Rust, "an array of many", "let x = [\n", &rust_numbers, "];"),
        around(Rust, "a macro with many items", "let x = vec![\n", &rust_numbers, "];"),
        around(Rust, "many functions", "", &items, ""),
        around(Rust, "many arms", "match x {\n", &arms, "_ => 0 }"),
        around(Rust, "hashes", "let x = r", &r("#", deep), "\";"),
        around(Rust, "attributes", "", &r("#[a]\n", deep.min(10_000)), "fn g() {}"),
        around(Rust, "where bounds", "fn g<T>() where T: A", &r(" + A", deep), " {}"),
        around(Rust, "patterns", "match x { ", &r("a | ", deep), "b => 1 };"),
        around(Rust, "labels and loops", "", &format!("{}{}", r("loop {", 398), r("}", 398)), ""),
        around(Toml, "arrays", "x = ", &format!("{}1{}", r("[", deep), r("]", deep)), ""),
        around(Toml, "inline tables", "x = ", &format!("{}1{}", r("{a=", deep), r("}", deep)), ""),
        around(Toml, "dotted keys", "a", &r(".a", deep), " = 1"),
        around(Toml, "a dotted table", "[a", &r(".a", deep), "]"),
        around(Toml, "many tables", "", &tables, ""),
        around(Toml, "many tables of one array", "", &arrays, ""),
        around(Toml, "an array of many", "x = [\n", &numbers, "]"),
    ]
}
