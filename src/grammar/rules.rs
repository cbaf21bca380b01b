//! What is known of the kinds of nodes of a language, of its lists and of their entries, as the core asks for it.

use super::descriptor::{Defines, Spelling};
use super::words::unquoted;

/// A node kind; kinds of one name are one kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Kind(pub u16);

impl Kind {
    /// The kind of an entry of a list: what is listed, with what belongs to it.
    pub const ENTRY: Kind = Kind(0);
    /// The kind of a run of tokens between separators, in lists that the grammar does not structure.
    pub const RUN: Kind = Kind(1);
}

/// What is known of a node kind.
#[derive(Clone, Debug, Default)]
pub struct KindRule {
    /// It stands beside code and describes it.
    pub comment: bool,
    /// A comment that holds it describes what it stands in.
    pub inner: bool,
    /// It belongs to the entry after it.
    pub prefix: bool,
    /// It is one piece of text.
    pub text: bool,
    /// A text that is all it holds is there to be read.
    pub remark: bool,
    /// Which quotes it has means nothing.
    pub quoted: bool,
    /// It has code between braces, if one of these letters stands before its quote.
    pub interpolated: Vec<u8>,
    /// So it has where it stands among tokens without structure.
    pub interpolated_in_runs: bool,
    /// A backslash at the end of a line in it goes on with the next word.
    pub continued: bool,
    /// It says the same without one of these letters before its quote.
    pub unmarked: Vec<u8>,
    /// A backslash in it is one, if one of these letters stands before its quote.
    pub raw: Vec<u8>,
    /// Its parts mean something only together.
    pub joint: bool,
    /// Its operands stand in no order.
    pub unordered: bool,
    /// What belongs to what stands right in it alone, whatever stands around both.
    pub closer: bool,
    /// What is defined in it is a member of it.
    pub owner: bool,
    /// It is, in a method, the object that it is called on.
    pub itself: bool,
    /// What is declared in it is known in all of it, and is another thing than what has that name around it.
    pub hides: bool,
    /// Nothing is known in it that is declared around it.
    pub wall: bool,
    /// Its parts that are names of something in what stands beside them.
    pub members: Vec<u16>,
    /// The fields of its parts that are names which it declares; 0 for those in none.
    pub declares: Vec<u16>,
    /// The fields of its parts that are names to which it gives another value.
    pub rebinds: Vec<u16>,
    /// The fields of its parts that say what those beside them are for.
    pub governs: Vec<u16>,
    /// The ways to a number in it, and to the part whose entries that counts.
    pub counts: Option<[KeyPath; 2]>,
    /// The place among the parts that may be there or not; from 1 on.
    pub optional: u8,
    /// The kinds of which it must hold one, if any are named.
    pub needs: Vec<Kind>,
    /// A field that must not end with a sign where another is there: these two, and the sign.
    pub unended: Option<(u16, u16, String)>,
    /// It goes out of something around it, as this rule says, by its number.
    pub leaves: Option<u16>,
    /// The way from what it goes out of to what says what may come out of that.
    pub answers: Option<KeyPath>,
    /// Something may go out of it, or goes out of nothing that is around it.
    pub left: bool,
    /// Only if it holds one of these, if any are named.
    pub needs_beside: Vec<Kind>,
    /// The group of what something becomes with a part behind it, and its place in it.
    pub grown: Option<(u16, u16)>,
    /// The group of forms it is one of.
    pub form: Option<u16>,
    /// The list rules that may apply, most particular first.
    pub lists: Vec<u16>,
    /// The entry rules that may apply, most particular first.
    pub entries: Vec<u16>,
}

impl KindRule {
    /// What a text of this kind says whichever quotes it has, if its quotes mean nothing.
    pub(crate) fn unquoted(&self, text: &[u8]) -> Option<Vec<u8>> {
        self.quoted.then(|| unquoted(text, &self.raw)).flatten()
    }
}

/// A kind of list.
#[derive(Debug)]
pub struct ListRule {
    /// Applies only under these keys, if any are named.
    pub under: Vec<String>,
    /// Applies only beside these texts, if any are named.
    pub beside: Vec<String>,
    /// Applies only in a list beside one of these texts, if any are named.
    pub amid: Vec<String>,
    /// What lists between the two may stand beside, other than `beside`.
    pub through: Vec<String>,
    /// What it stands beside says what its entries are for.
    pub governed: bool,
    /// Applies only within nodes of these kinds, outermost first, if any are named.
    pub within: Vec<Vec<Kind>>,
    /// Entries are runs between separators.
    pub runs: bool,
    /// The tokens that end a run and are part of it.
    pub ends: Vec<Kind>,
    /// What brackets begin with that end an entry.
    pub blocks: Vec<String>,
    /// What opens and what closes a pair of signs that separators between them do not part.
    pub pairs: Vec<[String; 2]>,
    /// Kinds that are entries; all named ones, if empty.
    pub entries: Vec<Kind>,
    /// Tokens without a name that are entries too.
    pub tokens: Vec<Kind>,
    /// Kinds that belong to the entry after them.
    pub before: Vec<Kind>,
    /// The field entries must stand in, 0 for none.
    pub field: Option<u16>,
    /// The token between entries.
    pub separator: Option<Kind>,
    /// Its text.
    pub separator_text: Vec<u8>,
    /// The text as it is written where a list has none yet.
    pub first_separator: Vec<u8>,
    /// Entries start lines.
    pub lines: bool,
    /// Those that do must stand at one column.
    pub aligned: bool,
    /// Only membership means something.
    pub free: bool,
    /// The key of entries without a rule of their own is their text.
    pub keyed_by_text: bool,
    /// How those keys are compared.
    pub spelling: Spelling,
    /// Kept sorted where it was.
    pub sorted: bool,
    /// Its entries are of one form.
    pub alike: bool,
    /// A key may stand only once.
    pub unique: bool,
    /// All such lists in one entry are one.
    pub together: bool,
    /// The kind of entries that give by themselves what it gives to the entry that it belongs to.
    pub implies: Option<Kind>,
}

/// How entries of a kind behave.
#[derive(Debug)]
pub struct EntryRule {
    /// The list-holding kinds it applies in; all, if empty.
    pub parents: Vec<Kind>,
    /// Where the key is.
    pub key: Vec<KeyPath>,
    /// Keys inside the entry whose values belong to its key.
    pub told_by: Vec<String>,
    /// The key that is no name.
    pub nameless: Option<String>,
    /// The key's name space.
    pub space: String,
    /// How keys are compared.
    pub spelling: Spelling,
    /// Two of different keys do not disagree.
    pub free: bool,
    /// Nor do two of different keys that hold nothing but these kinds.
    pub plain: Vec<Kind>,
    /// A second one of one key is unsound.
    pub unique: bool,
    /// The kind of its parts in which those of one name differ where a scope has several.
    pub variant: Option<Kind>,
    /// So it is of those that have a part in this field.
    pub unique_with: Option<u16>,
    /// The field of a part that no other entry of the list may have too.
    pub distinct: Option<u16>,
    /// The order of ranks starts again after it.
    pub barrier: bool,
    /// The order among insertions at one place.
    pub rank: i8,
    /// The kinds that are, or in a field hold, the names it brings into scope.
    pub binds: Vec<(Kind, Option<u16>)>,
    /// Nothing but its like, a text to be read and comments may stand before it in what it stands in.
    pub foremost: bool,
    /// What it names is declared elsewhere.
    pub imports: bool,
    /// It means the same wherever in its list it stands.
    pub anywhere: bool,
    /// It takes the names that it declares from what its key names.
    pub takes: bool,
    /// The entries behind it whose dotted keys begin with its own are in it.
    pub holds_longer: bool,
    /// Nothing but comments may stand behind it.
    pub last: bool,
    /// The names that it declares are known only behind it, to the end of its list.
    pub local: bool,
    /// What it defines at the path that its key is.
    pub defines: Option<Defines>,
}

impl ListRule {
    /// Whether a text is a bracket that ends an entry.
    pub fn is_block(&self, text: &[u8]) -> bool {
        self.blocks.iter().any(|sign| text.starts_with(sign.as_bytes()))
    }
}

impl EntryRule {
    /// Whether it brings names into scope that something else may bring too.
    pub fn brings_names(&self) -> bool {
        !self.binds.is_empty() || self.takes
    }
}

/// The way from an entry to a part of its key; empty is the entry itself.
pub type KeyPath = Vec<Step>;

/// One step of a key path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// To the child in this field.
    Field(u16),
    /// To the first child of this kind, or the first such token.
    Kind(Kind),
}

/// What is listed by its path.
#[derive(Debug)]
pub struct PathRules {
    /// The kinds of entries that are nothing but paths, and the field that holds these, if one does.
    pub entries: Vec<(Kind, Option<u16>)>,
    /// The kinds that list paths.
    pub lists: Vec<Kind>,
    /// The parts of a kind that stand before the paths beside them.
    pub before: Vec<(Kind, Step)>,
}

impl PathRules {
    /// Whether anything that is listed by its path has a value.
    pub fn list_values(&self) -> bool {
        let entry = |kind: &Kind| self.entries.iter().any(|(entry, _)| entry == kind);
        self.before.iter().any(|(kind, _)| entry(kind) && !self.lists.contains(kind))
    }
}

/// What nodes of some kinds go out of.
#[derive(Debug)]
pub struct LeavesRule {
    /// The parts, kind and field, of which they leave the nearest.
    pub what: Vec<(Kind, Option<u16>)>,
    /// The kinds that no such part reaches into.
    pub not_through: Vec<Kind>,
    /// The token that what they leave has, or something in it.
    pub marked: Option<Kind>,
    /// With one of these in them they say by name what they leave.
    pub unless: Vec<Kind>,
}

impl LeavesRule {
    /// Whether nodes of a kind have such a part, or are in the way of one.
    pub fn ends_at(&self, kind: Kind) -> bool {
        self.not_through.contains(&kind) || self.what.iter().any(|(what, _)| *what == kind)
    }
}

/// How calls and definitions fit together.
#[derive(Debug)]
pub struct CallRules {
    /// The kind of a call, and the field of what it calls.
    pub called: (Kind, Option<u16>),
    /// The kind of what is called by what it is a member of, and the field of that.
    pub member_of: Option<(Kind, Option<u16>)>,
    /// The kind of a definition, and the field of the list of what it takes.
    pub takes: (Kind, Option<u16>),
    /// All of that is given by name.
    pub by_name: bool,
    /// The kinds of the object that a method is called on.
    pub object: Vec<Kind>,
    /// The name of the method that is called where the name of its owner is.
    pub constructor: Option<String>,
    /// What stands for the owner that a call stands in.
    pub around: Vec<String>,
    /// What brackets begin with that hold what is given, among tokens without structure.
    pub opens: Option<String>,
    /// The kinds of what must be given.
    pub needed: Vec<Kind>,
    /// The kinds of what may be left out.
    pub optional: Vec<Kind>,
    /// The kinds of what stands before all that is given by name only.
    pub names_behind: Vec<Kind>,
    /// The kinds of what stands behind all that is given by its place only.
    pub places_before: Vec<Kind>,
    /// The kinds of what takes the rest of what is given by its place.
    pub any_placed: Vec<Kind>,
    /// The kinds of what takes the rest of what is given by name.
    pub any_named: Vec<Kind>,
    /// The kinds of what is given by name.
    pub named: Vec<Kind>,
    /// The kinds of what gives any number of things.
    pub spread: Vec<Kind>,
}
