//! Requirements of one project are one requirement, whatever the spelling of its name.
//!
//! PEP 503, "Normalized Names": "This PEP references the concept of a “normalized” project name. As per PEP
//! 426 the only valid characters in a name are the ASCII alphabet, ASCII numbers, `.`, `-`, and `_`. The name
//! should be lowercased with all runs of the characters `.`, `-`, or `_` replaced with a single `-`
//! character", with `re.sub(r"[-_.]+", "-", name).lower()`. PEP 508, "Names" and "Complete Grammar", gives the
//! requirements that are read here.

use pleach::{Answer, Settings, Versions, merge};

use super::edited::Lang;
use super::edited::blocks;

/// PEP 503's function.
fn normalised(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars() {
        match c {
            '-' | '_' | '.' if out.ends_with('-') => {}
            '-' | '_' | '.' => out.push('-'),
            c => out.push(c.to_ascii_lowercase()),
        }
    }
    out
}

/// The name of a PEP 508 requirement: its letters, digits and `-_.`, from the start.
fn name(requirement: &str) -> String {
    normalised(
        requirement.trim().split(|c: char| !c.is_ascii_alphanumeric() && !"-_.".contains(c)).next().unwrap_or(""),
    )
}

/// `pyproject.toml` files with these lists of requirements.
fn merged(section: &str, base: &[&str], ours: &[&str], theirs: &[&str], one_a_line: bool) -> Answer {
    let text = |list: &[&str]| {
        // A literal string, or a basic one for what has single quotes inside.
        let quote = |r: &&str| if r.contains('\'') { format!("\"{r}\"") } else { format!("'{r}'") };
        let quoted: Vec<String> = list.iter().map(quote).collect();
        let list = if one_a_line {
            format!("[\n    {},\n]", quoted.join(",\n    "))
        } else {
            format!("[{}]", quoted.join(", "))
        };
        format!("{section} = {list}\n")
    };
    let texts = Versions { base: text(base), ours: text(ours), theirs: text(theirs) };
    merge(texts.as_ref().map(String::as_bytes), Lang::Toml.language(), &Settings::default())
}

/// The requirements in a merged text when one side is taken in every block.
fn requirements(answer: &Answer, side: usize) -> Vec<String> {
    let text = String::from_utf8(blocks::choose(&answer.text, side).expect("whole blocks")).expect("text");
    let value: toml::Table = text.parse().unwrap_or_else(|e| panic!("{e}:\n{text}"));
    let mut found = Vec::new();
    let mut values: Vec<&toml::Value> = value.values().collect();
    while let Some(value) = values.pop() {
        match value {
            toml::Value::Table(table) => values.extend(table.values()),
            toml::Value::Array(list) => found.extend(list.iter().filter_map(|r| r.as_str().map(str::to_owned))),
            _ => {}
        }
    }
    found
}

const SECTIONS: [&str; 3] =
    ["[project]\ndependencies", "[project.optional-dependencies]\ntest", "[build-system]\nrequires"];

/// The spellings of one project in the Python Packaging User Guide, "Names and normalization", which
/// restates PEP 503: "The following names are all equivalent".
const FRIENDLY_BARD: [&str; 7] = [
    "friendly-bard",
    "Friendly-Bard",
    "FRIENDLY-BARD",
    "friendly.bard",
    "friendly_bard",
    "friendly--bard",
    "FrIeNdLy-._.-bArD",
];

#[test]
fn one_project_in_two_spellings_is_not_required_twice() {
    for section in SECTIONS {
        for one_a_line in [false, true] {
            for other in FRIENDLY_BARD {
                let (ours, theirs) = ("friendly-bard>=1".to_owned(), format!("{other}>=2"));
                let answer = merged(section, &["zope"], &["zope", &ours], &["zope", &theirs], one_a_line);
                assert!(answer.conflicts > 0, "{other} is friendly-bard:\n{}", String::from_utf8_lossy(&answer.text));
                for side in 0..2 {
                    let n = requirements(&answer, side).iter().filter(|r| name(r) == "friendly-bard").count();
                    assert_eq!(n, 1, "{other}, side {side}:\n{}", String::from_utf8_lossy(&answer.text));
                }
            }
        }
    }
}

#[test]
fn a_change_of_the_spelling_keeps_the_project() {
    for other in &FRIENDLY_BARD[1..] {
        // One side spells it anew, the other adds a project.
        let respelled = format!("{other}>=1");
        let answer = merged(
            SECTIONS[0],
            &["friendly-bard>=1", "zope"],
            &[&respelled, "zope"],
            &["friendly-bard>=1", "zope", "zzz"],
            false,
        );
        assert_eq!(answer.conflicts, 0, "{other}:\n{}", String::from_utf8_lossy(&answer.text));
        let mut found = requirements(&answer, 0);
        found.sort();
        let mut expected = vec![respelled, "zope".to_owned(), "zzz".to_owned()];
        expected.sort();
        assert_eq!(found, expected);
    }
}

#[test]
fn different_projects_are_both_required() {
    for (ours, theirs) in [("friendly-bard", "friendlybard"), ("A.B-C_D", "A.B-C"), ("name", "names"), ("aa", "a")] {
        for section in SECTIONS {
            let answer = merged(section, &["zope"], &["zope", ours], &["zope", theirs], false);
            assert_eq!(answer.conflicts, 0, "{ours} is not {theirs}:\n{}", String::from_utf8_lossy(&answer.text));
            let mut found = requirements(&answer, 0);
            found.sort();
            let mut expected = vec!["zope", ours, theirs];
            expected.sort();
            assert_eq!(found, expected);
        }
    }
}

/// PEP 508, "Examples" and the tests of its "Complete Grammar", each with a bare requirement of its project.
const PEP_508: [(&str, &str); 12] = [
    ("A", "a"),
    ("A.B-C_D", "a-b-c-d"),
    ("aa", "AA"),
    ("name", "Name"),
    ("name<=1", "name"),
    ("name>=3,<2", "name"),
    ("name@http://foo.com", "name"),
    ("name [fred,bar] @ http://foo.com ; python_version=='2.7'", "name"),
    ("name[quux, strange];python_version<'2.7' and platform_version=='2'", "name"),
    ("name; os_name=='a' or os_name=='b'", "name"),
    ("requests [security,tests] >= 2.8.1, == 2.8.* ; python_version < '2.7'", "Requests"),
    ("pip @ https://github.com/pypa/pip/archive/1.3.1.zip", "PIP"),
];

#[test]
fn the_name_is_found_in_every_form_of_a_requirement() {
    for (requirement, bare) in PEP_508 {
        assert_eq!(name(requirement), normalised(bare), "the test itself");
        let other = format!("{bare}==99");
        let answer = merged(SECTIONS[0], &["zope"], &["zope", requirement], &["zope", &other], true);
        assert!(answer.conflicts > 0, "{requirement} and {other}:\n{}", String::from_utf8_lossy(&answer.text));
        // And one that only starts alike is another project.
        let longer = format!("{bare}x==99");
        let answer = merged(SECTIONS[0], &["zope"], &["zope", requirement], &["zope", &longer], true);
        assert_eq!(answer.conflicts, 0, "{requirement} and {longer}:\n{}", String::from_utf8_lossy(&answer.text));
    }
}

#[test]
fn a_raised_bound_and_an_added_project_merge() {
    for section in SECTIONS {
        for one_a_line in [false, true] {
            let answer = merged(
                section,
                &["numpy>=1.20", "scipy"],
                &["numpy>=1.26", "scipy"],
                &["numpy>=1.20", "pandas[excel]>=2; python_version>='3.9'", "scipy"],
                one_a_line,
            );
            assert_eq!(answer.conflicts, 0, "{}", String::from_utf8_lossy(&answer.text));
            let expected = ["numpy>=1.26", "pandas[excel]>=2; python_version>='3.9'", "scipy"];
            assert_eq!(requirements(&answer, 0), expected);
        }
    }
}
