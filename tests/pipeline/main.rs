//! What each step of a merge hands to the next, printed and compared with `snapshots/`: when an answer
//! changes, these say at which step.
//!
//! A difference is a failure. To take the new output over, run with `INSTA_UPDATE=always` and read what
//! `git diff` shows.

use pleach::line::{self, Algorithm};
use pleach::matching::match_trees;
use pleach::{Side, Versions, grammar, layout, merging, syntax};

/// Merges step by step.
fn steps(name: &str, file: &str, versions: Versions<&str>) {
    let bytes = versions.map(str::as_bytes);
    let language = grammar::for_path(file.as_bytes(), bytes.ours).expect("a language for the file's name");
    let parsed = syntax::parse_versions(bytes, language).expect("versions that parse");
    let trees = parsed.as_ref().map(|p| p.tree());
    let merge = merging::merge_trees(&trees, &merging::Withdrawn::default()).expect("sides that agree on something");
    let page = layout::lay_out(&trees, &merge, &line::LineSettings::default()).expect("trees built in full");

    let mut settings = insta::Settings::new();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| {
        insta::assert_snapshot!(format!("{name}_1_chunks"), chunks(bytes));
        insta::assert_snapshot!(format!("{name}_2_tree"), trees.base.outline());
        for side in Side::BOTH {
            let tree = trees.get(side);
            let matching = match_trees(&trees.base, tree).outline(&trees.base, tree);
            insta::assert_snapshot!(format!("{name}_3_matching_{side:?}").to_lowercase(), matching);
        }
        insta::assert_snapshot!(format!("{name}_4_pieces"), merge.piece.outline(&trees));
        insta::assert_snapshot!(format!("{name}_5_page"), String::from_utf8_lossy(&page.text));
    });
}

/// The line chunks as `diff3` shows them, a line a line.
fn chunks(versions: Versions<&[u8]>) -> String {
    let lines = versions.map(line::lines);
    let mut out = String::new();
    for chunk in line::chunks(versions, Algorithm::Histogram) {
        out.push_str(&format!("{:?}\n", chunk.kind).to_lowercase());
        let parts = [
            ("base", &lines.base[chunk.base]),
            ("ours", &lines.ours[chunk.ours]),
            ("theirs", &lines.theirs[chunk.theirs]),
        ];
        for (name, part) in parts {
            for line in part {
                out.push_str(&format!("  {name:6} {:?}\n", String::from_utf8_lossy(line)));
            }
        }
    }
    out
}

#[test]
fn a_python_call_and_the_statement_after_it() {
    steps(
        "python_call",
        "tides.py",
        Versions {
            base: "tide = fetch(station, unit='m')\nshow(tide)\n",
            ours: "tide = fetch(station, unit='ft', retries=3)\nshow(tide)\n",
            theirs: "tide = fetch(harbour, unit='m')\nplot(tide, width=80)\n",
        },
    );
}

#[test]
fn a_python_statement_that_both_changed_and_one_that_was_wrapped() {
    steps(
        "python_statements",
        "tides.py",
        Versions {
            base: "level = 1\ndraw(level)\nsave(level)\n",
            ours: "level = 2\nif visible:\n    draw(level)\nsave(level)\n",
            theirs: "level = 3\ndraw(level, colour)\nsave(level)\n",
        },
    );
}

#[test]
fn a_rust_enum_that_both_extend_and_a_function_that_moved() {
    steps(
        "rust_items",
        "tides.rs",
        Versions {
            base: "enum Phase { Flood, Ebb }\n\nfn high() -> u32 { 1 }\n\nfn low() -> u32 { 0 }\n",
            ours: "enum Phase { Flood, Ebb, Slack }\n\nfn low() -> u32 { 0 }\n\nfn high() -> u32 { 1 }\n",
            theirs: "enum Phase { Flood, Ebb, Spring }\n\nfn high() -> u32 { 2 }\n\nfn low() -> u32 { 0 }\n",
        },
    );
}

#[test]
fn toml_keys_and_a_text_of_several_lines() {
    steps(
        "toml_keys",
        "tideboard.toml",
        Versions {
            base: "[station]\nname = 'Wick'\nunits = ['m']\nabout = '''\none\ntwo\n'''\n",
            ours: "[station]\nname = 'Wick'\nunits = ['m', 'ft']\nabout = '''\n1\ntwo\n'''\n",
            theirs: "[station]\nname = 'Wick'\nport = 80\nunits = ['m']\nabout = '''\none\ntwo\nthree\n'''\n",
        },
    );
}
