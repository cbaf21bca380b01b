//! The vocabulary of the files in `grammars/`: what a descriptor can say, before it is bound to a
//! tree-sitter language.

use serde::{Deserialize, Serialize};

/// One file of `grammars/`.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Descriptor {
    /// The language's name, as linguist spells it.
    pub name: String,
    /// Other names by which `linguist-language` may call it.
    #[serde(default)]
    pub aliases: Vec<String>,
    /// File name endings, without the dot, in lower case.
    #[serde(default)]
    pub extensions: Vec<String>,
    /// Whole file names.
    #[serde(default)]
    pub filenames: Vec<String>,
    /// Names of interpreters in a shebang line.
    #[serde(default)]
    pub interpreters: Vec<String>,
    /// Node kinds that describe what they stand beside.
    #[serde(default)]
    pub comments: Vec<String>,
    /// Node kinds in a comment that describes what it stands in, not what it stands beside.
    #[serde(default)]
    pub inner: Vec<String>,
    /// Node kinds that always belong to the entry after them (attributes).
    #[serde(default)]
    pub prefixes: Vec<String>,
    /// The names of such that say whether the entry is there at all.
    #[serde(default)]
    pub conditions: Vec<String>,
    /// Node kinds that are one piece of text: never looked into, merged as lines if they have several.
    #[serde(default)]
    pub text: Vec<String>,
    /// Node kinds that do nothing with a text if that is all they hold: it is there to be read.
    #[serde(default)]
    pub remarks: Vec<String>,
    /// Node kinds for which single and double quotes mean the same.
    #[serde(default)]
    pub quoted: Vec<String>,
    /// Texts that have code between braces.
    #[serde(default)]
    pub interpolated: Vec<Interpolated>,
    /// Texts in which a backslash at the end of a line goes on with the next word.
    #[serde(default)]
    pub continued: Vec<String>,
    /// Texts that say the same without these letters before their quote.
    #[serde(default)]
    pub unmarked: Vec<Marked>,
    /// Texts in which a backslash is one with these letters before their quote.
    #[serde(default)]
    pub raw: Vec<Marked>,
    /// Node kinds whose parts mean something only together.
    #[serde(default)]
    pub joint: Vec<String>,
    /// Node kinds of an operator whose operands stand in no order: what both sides put behind one is all kept.
    #[serde(default)]
    pub unordered: Vec<String>,
    /// Node kinds of what belongs to what stands right in it alone, whatever stands around both.
    #[serde(default)]
    pub closer: Vec<String>,
    /// Parts, `kind.field`, that say what the parts beside them are for.
    #[serde(default)]
    pub governs: Vec<String>,
    /// Numbers that say how many entries a list has.
    #[serde(default)]
    pub counts: Vec<Counts>,
    /// Pairs of signs of which one in the other's place turns a condition into its opposite; one may be nothing.
    #[serde(default)]
    pub opposites: Vec<[String; 2]>,
    /// Node kinds of parts that may be there or not, in the order in which they stand: both sides may put in different
    /// ones.
    #[serde(default)]
    pub optional: Vec<String>,
    /// Parts, `kind.field`, that are names of something in what stands beside them: no expressions of their own.
    #[serde(default)]
    pub members: Vec<String>,
    /// Node kinds of which what is defined in them is a member.
    #[serde(default)]
    pub owners: Vec<String>,
    /// Node kinds that are, in a method, the object that it is called on.
    #[serde(default)]
    pub itself: Vec<String>,
    /// Node kinds in all of which a name is known that is declared anywhere in them, and hides what has it around them.
    #[serde(default)]
    pub hides: Vec<String>,
    /// Signs behind a name that is another one then: that of a macro.
    #[serde(default)]
    pub apart: Vec<String>,
    /// Node kinds in which nothing is known that is declared around them. A name is known in the list that declares it, or
    /// from there on, if its declaration is `local`.
    #[serde(default)]
    pub walls: Vec<String>,
    /// Parts, `kind.field`, that are names which what they stand in declares; of a `kind` alone, those in no field.
    #[serde(default)]
    pub declares: Vec<String>,
    /// Parts, `kind.field`, that are names to which what they stand in gives another value.
    #[serde(default)]
    pub rebinds: Vec<String>,
    /// Groups of node kinds that are forms of one thing: with or without a part.
    #[serde(default)]
    pub forms: Vec<Vec<String>>,
    /// Groups of node kinds that something becomes with a part behind it, in the order of these parts.
    #[serde(default)]
    pub grown: Vec<Vec<String>>,
    /// Node kinds that hold lists.
    #[serde(default)]
    pub list: Vec<ListDescriptor>,
    /// How entries of a kind behave.
    #[serde(default)]
    pub entry: Vec<EntryDescriptor>,
    /// What may be listed by its path in several ways that mean the same.
    pub paths: Option<Paths>,
    /// What a node must hold although the grammar reads it without.
    #[serde(default)]
    pub needs: Vec<Needs>,
    /// What a part of a node must not end with although the grammar reads it so.
    #[serde(default)]
    pub unended: Vec<Unended>,
    /// What goes out of the nearest node of some kinds around it.
    #[serde(default)]
    pub leaves: Vec<Leaves>,
    /// What a call gives, and what the definition of what it calls takes.
    #[serde(default)]
    pub calls: Vec<Calls>,
    /// How lines alone tell where statements begin, in languages in which they do.
    pub outline: Option<Outline>,
    /// Words that the grammar takes for keywords and older editions of the language for names.
    #[serde(default)]
    pub word: Vec<Word>,
    /// Files of these names are written by a tool that can write them again: the command to suggest.
    #[serde(default)]
    pub generated: Vec<Generated>,
}

/// By what it is known which files are of a language: what is read of a descriptor for each file.
#[derive(Debug, Deserialize, PartialEq, Serialize)]
pub struct Names<'d> {
    /// The language's name.
    #[serde(borrow)]
    pub name: &'d str,
    /// Other names of it.
    pub aliases: Vec<&'d str>,
    /// File name endings, without the dot, in lower case.
    pub extensions: Vec<&'d str>,
    /// Whole file names.
    pub filenames: Vec<&'d str>,
    /// Names of interpreters in a shebang line.
    pub interpreters: Vec<&'d str>,
}

impl Descriptor {
    /// By what it is known which files it describes.
    pub fn names(&self) -> Names<'_> {
        fn all(names: &[String]) -> Vec<&str> {
            names.iter().map(String::as_str).collect()
        }
        Names {
            name: &self.name,
            aliases: all(&self.aliases),
            extensions: all(&self.extensions),
            filenames: all(&self.filenames),
            interpreters: all(&self.interpreters),
        }
    }
}

/// A kind of node that holds a list of entries.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct ListDescriptor {
    /// The node kinds that hold such a list.
    #[serde(rename = "in")]
    pub kinds: Vec<String>,
    /// Only where the nearest keyed ancestor has one of these keys (compared without quotes).
    #[serde(default)]
    pub under: Vec<String>,
    /// Only where the first child of the parent has one of these texts.
    #[serde(default)]
    pub beside: Vec<String>,
    /// With `beside`: only in a list beside one of these texts, and none in between but those beside a text of `beside`
    /// or `through`.
    #[serde(default)]
    pub amid: Vec<String>,
    /// What lists may stand beside that are between it and one of `amid`.
    #[serde(default)]
    pub through: Vec<String>,
    /// Whether what it stands beside says what its entries are for.
    #[serde(default)]
    pub governed: bool,
    /// Only where the kinds of the nodes around end so: `except_clause.as_pattern`, outermost first.
    #[serde(default)]
    pub within: Vec<String>,
    /// Whether entries are not nodes but the runs of children between separators.
    #[serde(default)]
    pub runs: bool,
    /// Which tokens end a run and are part of it, so that no separator follows.
    #[serde(default)]
    pub ends: Vec<String>,
    /// What brackets begin with that end an entry of a list of tokens, if what follows on the next line does not go on
    /// with them.
    #[serde(default)]
    pub blocks: Vec<String>,
    /// The tokens that open and close a pair in a list of tokens: a separator between them is part of the entry.
    #[serde(default)]
    pub pairs: Vec<[String; 2]>,
    /// Which named children are entries; all, if empty.
    #[serde(default)]
    pub entries: Vec<String>,
    /// Which tokens without a name in the grammar are entries too.
    #[serde(default)]
    pub tokens: Vec<String>,
    /// Which named children are no entries, but belong to the one after them: one at most.
    #[serde(default)]
    pub before: Vec<String>,
    /// Entries must stand in this field; if empty, in none.
    pub field: Option<String>,
    /// The token between entries.
    pub separator: Option<String>,
    /// Whether white space stands before the separator where a list has none yet.
    #[serde(default)]
    pub spaced: bool,
    /// Whether each entry starts a line of its own (statements), rather than by layout.
    #[serde(default)]
    pub lines: bool,
    /// Whether entries that start lines must stand at one column, and the end of a line ends an entry, if nothing joins the
    /// lines.
    #[serde(default)]
    pub aligned: bool,
    /// Whether only membership means something, not position.
    #[serde(default)]
    pub free: bool,
    /// The key of every entry of this list that has no rule of its own (`.` is its whole text).
    pub key: Option<String>,
    /// How keys are compared.
    #[serde(default)]
    pub spelling: Spelling,
    /// Whether insertions keep a list sorted that was sorted.
    #[serde(default)]
    pub sorted: bool,
    /// Whether its entries are of one form: where a side gave another to all of them, so it did to what comes.
    #[serde(default)]
    pub alike: bool,
    /// Whether a key may stand only once.
    #[serde(default)]
    pub unique: bool,
    /// Whether all such lists in one entry are one.
    #[serde(default)]
    pub together: bool,
    /// The node kind of entries that give by themselves what the list gives to the entry that it belongs to.
    pub implies: Option<String>,
}

/// How an entry of one kind behaves in its list.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct EntryDescriptor {
    /// The node kind.
    pub kind: String,
    /// Only in lists held by these node kinds; anywhere, if empty.
    #[serde(default, rename = "in")]
    pub parents: Vec<String>,
    /// Paths of fields (or child kinds) to the parts that identify the entry; `.` is its whole text.
    #[serde(default)]
    pub key: Vec<String>,
    /// Keys of entries inside the entry whose values are part of its key too. An entry without any of
    /// them is not free.
    #[serde(default)]
    pub told_by: Vec<String>,
    /// The key that is no name: what has it is known by nothing, and may stand any number of times.
    pub nameless: Option<String>,
    /// Prefix of the key, for kinds that do not share a name space with others.
    #[serde(default)]
    pub space: String,
    /// How keys are compared.
    #[serde(default)]
    pub spelling: Spelling,
    /// Whether two of these with different keys, inserted at one place, do not disagree.
    #[serde(default)]
    pub free: bool,
    /// Node kinds that do nothing but name a value. Two entries that hold nothing else, with different keys of which
    /// neither uses the other's, do not disagree if both are inserted at one place.
    #[serde(default)]
    pub plain: Vec<String>,
    /// Whether a second one of the same key in the same list is unsound unless a side had it.
    #[serde(default)]
    pub unique: bool,
    /// The kind of its parts in which those of one name differ where a scope has several.
    pub variant: Option<String>,
    /// The field of a part with which it is `unique`, if it has that.
    pub unique_with: Option<String>,
    /// The field of a part that no other entry of the list may have too.
    pub distinct: Option<String>,
    /// Whether the order of ranks starts again after it.
    #[serde(default)]
    pub barrier: bool,
    /// Which goes first among insertions at one place: lower ranks.
    #[serde(default)]
    pub rank: i8,
    /// Which nodes inside it are the names that it brings into scope, once each: `kind`, or `kind.field` where a
    /// field of that kind holds them. Other kinds are looked through.
    #[serde(default)]
    pub binds: Vec<String>,
    /// If nothing but others of its kind, a text to be read and comments may stand before it in what it stands in, whatever
    /// its grammar says: what it has in it, by which lines know it.
    #[serde(default)]
    pub foremost: String,
    /// Whether what it names is declared elsewhere: its names are no uses of what this file declares.
    #[serde(default)]
    pub imports: bool,
    /// Whether it means the same wherever in its list it stands, whatever else stands there.
    #[serde(default)]
    pub anywhere: bool,
    /// Whether it takes the names that it declares from what its key names: each can be taken from one place only,
    /// though any number of times.
    #[serde(default)]
    pub takes: bool,
    /// Whether the entries behind it whose dotted keys begin with its own are in it.
    #[serde(default)]
    pub holds_longer: bool,
    /// Whether nothing but comments may stand behind it in its list.
    #[serde(default)]
    pub last: bool,
    /// Whether the names that it declares are known only behind it, to the end of its list.
    #[serde(default)]
    pub local: bool,
    /// What it defines at the dotted path that its key is, in languages whose entries build one tree of values.
    pub defines: Option<Defines>,
}

/// What an entry defines at its path (TOML v1.0.0, "Table").
#[derive(Clone, Copy, Debug, Deserialize, Serialize, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
pub enum Defines {
    /// A value, below the entry that it stands in.
    Value,
    /// A table, below the root.
    Table,
    /// One more element of an array of tables, below the root.
    Element,
}

/// What is listed by its path, in lists that may stand in one another: each path is one of a set, wherever it stands.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Paths {
    /// The sign between the parts of a path.
    pub sign: String,
    /// The entries that are nothing but paths, or `kind.field` of those that are so but for what is around that field.
    pub entries: Vec<String>,
    /// The node kinds that list paths.
    pub lists: Vec<String>,
    /// Parts, `kind.field` or `kind.kind`, that stand before all paths listed beside them, or before a value.
    pub before: Vec<String>,
    /// A part of a path that stands for what the path itself stands in.
    #[serde(default)]
    pub here: String,
    /// What a comment begins with, in languages in which what is listed has a value.
    pub comment: Option<String>,
    /// What strings begin and end with in which white space at the ends of lines says something.
    #[serde(default)]
    pub strings: Vec<String>,
    /// Tables in which a value says the same as one of that name in a table in its place.
    pub short: Option<Short>,
}

/// Where a value is short for a table.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Short {
    /// The last parts of the paths of the tables that hold such values.
    pub under: Vec<String>,
    /// The value's name in a table.
    pub part: String,
}

/// How two keys are compared.
#[derive(Clone, Copy, Debug, Default, Deserialize, Serialize, PartialEq, Eq)]
#[serde(rename_all = "kebab-case")]
pub enum Spelling {
    /// As written, white space and quotes aside.
    #[default]
    Exact,
    /// The project name of a PEP 508 requirement, normalised by PEP 503.
    Requirement,
}

/// A kind of node that is whole only with another in it.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Needs {
    /// The node kind.
    pub kind: String,
    /// Only where it holds one of these node kinds; everywhere, if empty.
    #[serde(default, rename = "where")]
    pub beside: Vec<String>,
    /// The node kinds of which it holds at least one.
    pub one_of: Vec<String>,
}

/// A part of a node that must not end with a sign where the node has another part too.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Unended {
    /// The part, as a node kind and a field: `let_declaration.value`.
    pub part: String,
    /// The field of the other part.
    #[serde(rename = "where")]
    pub beside: String,
    /// The sign.
    pub sign: String,
}

/// Nodes that go out of the nearest of some parts around them, and must stand in one although the grammar reads them
/// elsewhere.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Leaves {
    /// The node kinds that go out.
    pub kinds: Vec<String>,
    /// The parts that they go out of: `kind.field`, or a kind.
    pub what: Vec<String>,
    /// The node kinds that no such part reaches into.
    #[serde(default)]
    pub not_through: Vec<String>,
    /// What they go out of has this token before that part, or in something before it.
    pub marked: Option<String>,
    /// With one of these node kinds in them they say by name what they go out of.
    #[serde(default)]
    pub unless: Vec<String>,
    /// The way from what they go out of to the part that says what may come out.
    pub answers: Option<String>,
}

/// How calls and definitions fit together.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Calls {
    /// The part of a call, `kind.field`, that is what it calls. What it gives is the list behind that.
    pub called: String,
    /// The part of what is called, `kind.field`, that says of what it is a member.
    #[serde(default)]
    pub member_of: Option<String>,
    /// What brackets begin with that hold what is given where tokens have no structure.
    #[serde(default)]
    pub opens: Option<String>,
    /// Texts of that part for what the call stands in.
    #[serde(default)]
    pub around: Vec<String>,
    /// The part of a definition, `kind.field`, that lists what it takes.
    pub takes: String,
    /// All of that is given by name.
    #[serde(default)]
    pub by_name: bool,
    /// The word before the name of such a definition, if braces hold what it takes.
    #[serde(default)]
    pub braced: Option<String>,
    /// Node kinds in that list of the object that a method is called on. Without them, that is the first of a method.
    #[serde(default)]
    pub object: Vec<String>,
    /// The name of the method that is called where the name of its owner is.
    #[serde(default)]
    pub constructor: Option<String>,
    /// Node kinds in that list of what must be given.
    pub needed: Vec<String>,
    /// Node kinds of what may be left out.
    #[serde(default)]
    pub optional: Vec<String>,
    /// Node kinds of what stands before all that is given by name only.
    #[serde(default)]
    pub names_behind: Vec<String>,
    /// Node kinds of what stands behind all that is given by its place only.
    #[serde(default)]
    pub places_before: Vec<String>,
    /// Node kinds of what takes all that is given by its place and that nothing else takes.
    #[serde(default)]
    pub any_placed: Vec<String>,
    /// Node kinds of what takes all that is given by name and that nothing else takes.
    #[serde(default)]
    pub any_named: Vec<String>,
    /// Node kinds in a call of what is given by name: that is its key.
    #[serde(default)]
    pub named: Vec<String>,
    /// Node kinds in a call of what gives any number of things.
    #[serde(default)]
    pub spread: Vec<String>,
}

/// A number in a node that says how many entries another part of it has.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Counts {
    /// The node kinds.
    pub kinds: Vec<String>,
    /// The way to the number.
    pub number: String,
    /// The way to what it counts.
    pub what: String,
}

/// A kind of text that has code between braces.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Interpolated {
    /// The node kind.
    pub kind: String,
    /// If one of these letters stands before its quote.
    #[serde(default)]
    pub marks: String,
    /// If it stands among tokens without structure.
    #[serde(default)]
    pub runs: bool,
}

/// A kind of text that is something special by what stands before its quote.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Marked {
    /// The node kind.
    pub kind: String,
    /// The letters of which one stands before the quote of such a text.
    pub marks: String,
}

/// What has to be known to see where statements begin without a parse. A statement begins on a line outside of all
/// brackets and strings, and holds the lines below that are indented further. A backslash takes the meaning off the
/// byte behind it.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Outline {
    /// What a comment begins with; it ends with the line.
    pub comment: String,
    /// What strings begin and end with.
    pub strings: Vec<String>,
    /// The same of strings that end with the line at the latest. Looked for after the others.
    #[serde(default)]
    pub short_strings: Vec<String>,
    /// Words on which a part of the statement above begins.
    pub clauses: Vec<String>,
    /// What a line begins with that belongs to the statement below.
    pub leads: Vec<String>,
    /// What statements may stand between that stand in another: two lines.
    pub block: [String; 2],
    /// What follows a name that is a statement.
    #[serde(default)]
    pub statement: String,
    /// Words on which statements begin that give something a name.
    pub naming: Vec<String>,
    /// Those of them that take a name from elsewhere.
    pub importing: Vec<String>,
    /// Signs behind a name on which a statement begins that give it a value, if more follows.
    #[serde(default)]
    pub setting: Vec<char>,
    /// What ends statements, if lines do not.
    pub signs: Option<Signs>,
}

/// What has to be known of a language in which signs end statements, and braces hold them: where a statement begins,
/// the one above is whole. They are expected to be indented as they stand in one another.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Signs {
    /// A statement is whole with the line that ends with one of these.
    pub ends: Vec<String>,
    /// Words on which statements begin that hold others, between braces.
    pub holds: Vec<String>,
    /// What a comment begins and ends with that may hold others.
    pub comment: [String; 2],
    /// What a string follows in which a backslash means itself.
    pub raw: Vec<String>,
    /// What may stand, any number of times, between that and the string; then so many follow the end of the string.
    pub guard: String,
    /// What a character stands between, or a name follows.
    pub character: String,
}

/// A word that an older edition of the language had for something else.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Word {
    /// The word.
    pub text: String,
    /// What follows it, on its line, where it is a keyword. Elsewhere it is read as a name.
    #[serde(default)]
    pub keyword_before: Vec<String>,
    /// An operator of the same length: it is read as that instead, where it stands first on its line and a word or a
    /// string follows.
    pub operator: Option<String>,
    /// Words before which it is not read as an operator.
    #[serde(default)]
    pub name_before: Vec<String>,
}

/// A file that a tool writes.
#[derive(Debug, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Generated {
    /// The file's name.
    pub filename: String,
    /// The command that writes it again.
    pub command: String,
}
