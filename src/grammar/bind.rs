//! Turns a descriptor's names into the numbers of a tree-sitter language, once, at load.

use rustc_hash::{FxBuildHasher, FxHashMap as HashMap};

use super::OWN;
use super::descriptor::{Defines, Descriptor, Paths, Spelling};

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
    /// Where tokens have no structure, what stands in braces in it are names.
    pub format: bool,
    /// It has code between braces, if one of these letters stands before its quote.
    pub interpolated: Vec<u8>,
    /// It says the same without one of these letters before its quote.
    pub unmarked: Vec<u8>,
    /// Its parts mean something only together.
    pub joint: bool,
    /// Its operands stand in no order.
    pub unordered: bool,
    /// Its parts that are names of something in what stands beside them.
    pub members: Vec<u16>,
    /// The fields of its parts that are names which it declares; 0 for those in none.
    pub declares: Vec<u16>,
    /// The fields of its parts that say what those beside them are for.
    pub governs: Vec<u16>,
    /// The ways to a number in it, and to the part whose entries that counts.
    pub counts: Option<[KeyPath; 2]>,
    /// The place among the parts that may be there or not; from 1 on.
    pub optional: u8,
    /// The kinds of which it must hold one, if any are named.
    pub needs: Vec<Kind>,
    /// It goes out of the nearest node of these kinds around it.
    pub leaves: Vec<Kind>,
    /// Not with one of these in it.
    pub leaves_unless: Vec<Kind>,
    /// Something may go out of it.
    pub left: bool,
    /// Only if it holds one of these, if any are named.
    pub needs_beside: Vec<Kind>,
    /// It stands where a rule of the descriptor's `inside` lets it, by the rule's number.
    pub inside: Option<u16>,
    /// The group of what something becomes with a part behind it, and its place in it.
    pub grown: Option<(u16, u16)>,
    /// The group of forms it is one of.
    pub form: Option<u16>,
    /// The list rules that may apply, most particular first.
    pub lists: Vec<u16>,
    /// The entry rules that may apply, most particular first.
    pub entries: Vec<u16>,
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
    /// A key may stand only once.
    pub unique: bool,
    /// All such lists in one entry are one.
    pub together: bool,
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
    pub rank: u8,
    /// The kinds that are, or in a field hold, the names it brings into scope.
    pub binds: Vec<(Kind, Option<u16>)>,
    /// What it names is declared elsewhere.
    pub imports: bool,
    /// It takes the names that it declares from what its key names.
    pub takes: bool,
    /// The entries behind it whose dotted keys begin with its own are in it.
    pub holds_longer: bool,
    /// Nothing but comments may stand behind it.
    pub last: bool,
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

/// Why a descriptor cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum BindError {
    /// It is not a descriptor at all.
    #[error("not a grammar descriptor: {0}")]
    Syntax(#[from] toml::de::Error),
    /// A node kind the grammar does not have.
    #[error("{language}: the grammar has no node kind `{name}`")]
    UnknownKind {
        /// The language.
        language: String,
        /// The name that is wrong.
        name: String,
    },
    /// A name that is no field, node kind or token of the grammar.
    #[error("{language}: the grammar has no field, node kind or token `{name}`")]
    UnknownStep {
        /// The language.
        language: String,
        /// The name that is wrong.
        name: String,
    },
    /// What is to be read in a word's place is longer or shorter.
    #[error("{language}: the operator for `{word}` is not of its length")]
    Length {
        /// The descriptor's language.
        language: String,
        /// The word.
        word: String,
    },
}

struct Binder<'p> {
    language: &'p str,
    parser: &'p tree_sitter::Language,
    /// By name, and whether it is the name of a node: a token of the same text ("lambda") is of another kind.
    by_name: HashMap<(&'p str, bool), Kind>,
}

impl Binder<'_> {
    fn kind(&self, name: &str) -> Result<Kind, BindError> {
        self.named(name, true)
    }

    /// The kind of a token without a name of its own in the grammar.
    fn token(&self, text: &str) -> Result<Kind, BindError> {
        self.named(text, false)
    }

    fn named(&self, name: &str, is_node: bool) -> Result<Kind, BindError> {
        self.by_name
            .get(&(name, is_node))
            .copied()
            .ok_or_else(|| BindError::UnknownKind { language: self.language.to_owned(), name: name.to_owned() })
    }

    fn kinds(&self, names: &[String]) -> Result<Vec<Kind>, BindError> {
        names.iter().map(|n| self.kind(n)).collect()
    }

    /// The kinds of a dotted path, outermost first.
    fn around(&self, path: &str) -> Result<Vec<Kind>, BindError> {
        path.split('.').map(|kind| self.kind(kind)).collect()
    }

    fn field(&self, name: &str) -> Result<u16, BindError> {
        self.parser
            .field_id_for_name(name)
            .map(Into::into)
            .ok_or_else(|| BindError::UnknownStep { language: self.language.to_owned(), name: name.to_owned() })
    }

    fn binding(&self, binding: &str) -> Result<(Kind, Option<u16>), BindError> {
        match binding.split_once('.') {
            Some((kind, field)) => Ok((self.kind(kind)?, Some(self.field(field)?))),
            None => Ok((self.kind(binding)?, None)),
        }
    }

    fn paths(&self, paths: &Paths) -> Result<PathRules, BindError> {
        let before = |part: &String| -> Result<(Kind, Step), BindError> {
            let (kind, step) = part.split_once('.').unwrap_or((part, ""));
            let unknown = || BindError::UnknownStep { language: self.language.to_owned(), name: step.to_owned() };
            Ok((self.kind(kind)?, self.path(step)?.pop().ok_or_else(unknown)?))
        };
        Ok(PathRules {
            entries: paths.entries.iter().map(|entry| self.binding(entry)).collect::<Result<_, _>>()?,
            lists: self.kinds(&paths.lists)?,
            before: paths.before.iter().map(before).collect::<Result<_, _>>()?,
        })
    }

    fn path(&self, path: &str) -> Result<KeyPath, BindError> {
        if path == "." {
            return Ok(Vec::new());
        }
        path.split('.')
            .map(|step| match self.field(step) {
                Ok(field) => Ok(Step::Field(field)),
                Err(unknown) => {
                    let kind = self.kind(step).or_else(|_| self.token(step));
                    kind.map(Step::Kind).map_err(|_| unknown)
                }
            })
            .collect()
    }
}

/// Where nodes of some kinds must stand.
#[derive(Debug)]
pub struct InsideRule {
    /// The parts, kind and field, of which one is around them.
    pub one_of: Vec<(Kind, Option<u16>)>,
    /// The kinds that no such part reaches into.
    pub not_through: Vec<Kind>,
}

/// What a descriptor says, in the numbers of a parser's language.
#[derive(Debug)]
pub(super) struct Bound {
    /// Our kind for each of the parser's kind ids (aliases of one name share a kind).
    pub kind_of_symbol: Vec<Kind>,
    /// The first of the parser's kind ids of each kind, after those of our own.
    pub symbols: Vec<u16>,
    /// What is known of each kind.
    pub rules: Vec<KindRule>,
    /// All list rules, referred to by index.
    pub lists: Vec<ListRule>,
    /// All entry rules, referred to by index.
    pub entries: Vec<EntryRule>,
    /// What is listed by its path, if anything is.
    pub paths: Option<PathRules>,
    /// Where nodes of some kinds must stand, referred to by index.
    pub inside: Vec<InsideRule>,
}

/// Binds `descriptor` to `parser`.
pub(super) fn bind(descriptor: &Descriptor, parser: &tree_sitter::Language) -> Result<Bound, BindError> {
    let count = parser.node_kind_count();
    let mut symbols = Vec::with_capacity(count);
    let mut by_name = HashMap::with_capacity_and_hasher(count, FxBuildHasher);
    let mut kind_of_symbol = Vec::with_capacity(count);
    for symbol in 0..count as u16 {
        let name = parser.node_kind_for_id(symbol).unwrap_or("");
        let kind = *by_name.entry((name, parser.node_kind_is_named(symbol))).or_insert_with(|| {
            symbols.push(symbol);
            Kind((OWN.len() + symbols.len() - 1) as u16)
        });
        kind_of_symbol.push(kind);
    }
    let binder = Binder { language: &descriptor.name, parser, by_name };
    if let Some(word) = descriptor.word.iter().find(|w| w.operator.as_ref().is_some_and(|o| o.len() != w.text.len())) {
        return Err(BindError::Length { language: descriptor.name.clone(), word: word.text.clone() });
    }

    let mut rules = vec![KindRule::default(); OWN.len() + symbols.len()];
    let mut mark = |names: &[String], set: fn(&mut KindRule)| -> Result<(), BindError> {
        for kind in binder.kinds(names)? {
            set(&mut rules[kind.0 as usize]);
        }
        Ok(())
    };
    mark(&descriptor.comments, |r| r.comment = true)?;
    mark(&descriptor.inner, |r| r.inner = true)?;
    mark(&descriptor.prefixes, |r| r.prefix = true)?;
    mark(&descriptor.text, |r| r.text = true)?;
    mark(&descriptor.remarks, |r| r.remark = true)?;
    mark(&descriptor.quoted, |r| r.quoted = true)?;
    mark(&descriptor.formats, |r| r.format = true)?;
    mark(&descriptor.joint, |r| r.joint = true)?;
    mark(&descriptor.unordered, |r| r.unordered = true)?;

    for text in &descriptor.interpolated {
        rules[binder.kind(&text.kind)?.0 as usize].interpolated = text.marks.clone().into_bytes();
    }
    for text in &descriptor.unmarked {
        rules[binder.kind(&text.kind)?.0 as usize].unmarked = text.marks.clone().into_bytes();
    }
    for member in &descriptor.members {
        let (kind, field) = binder.binding(member)?;
        rules[kind.0 as usize].members.extend(field);
    }
    for governing in &descriptor.governs {
        let (kind, field) = binder.binding(governing)?;
        // A kind alone has no such part.
        rules[kind.0 as usize].governs.push(field.unwrap_or(0));
    }
    for counts in &descriptor.counts {
        let ways = [binder.path(&counts.number)?, binder.path(&counts.what)?];
        for kind in binder.kinds(&counts.kinds)? {
            rules[kind.0 as usize].counts = Some(ways.clone());
        }
    }
    for (place, kind) in (1..).zip(binder.kinds(&descriptor.optional)?) {
        rules[kind.0 as usize].optional = place;
    }
    for declared in &descriptor.declares {
        let (kind, field) = binder.binding(declared)?;
        rules[kind.0 as usize].declares.push(field.unwrap_or(0));
    }
    for needs in &descriptor.needs {
        let rule = &mut rules[binder.kind(&needs.kind)?.0 as usize];
        (rule.needs, rule.needs_beside) = (binder.kinds(&needs.one_of)?, binder.kinds(&needs.beside)?);
    }
    for leaves in &descriptor.leaves {
        let (what, unless) = (binder.kinds(&leaves.what)?, binder.kinds(&leaves.unless)?);
        for kind in binder.kinds(&leaves.kinds)? {
            let rule = &mut rules[kind.0 as usize];
            (rule.leaves, rule.leaves_unless) = (what.clone(), unless.clone());
        }
        what.iter().for_each(|kind| rules[kind.0 as usize].left = true);
    }
    let mut inside = Vec::new();
    for (i, rule) in (0..).zip(&descriptor.inside) {
        for kind in binder.kinds(&rule.kinds)? {
            rules[kind.0 as usize].inside = Some(i);
        }
        let one_of = rule.one_of.iter().map(|part| binder.binding(part)).collect::<Result<_, _>>()?;
        inside.push(InsideRule { one_of, not_through: binder.kinds(&rule.not_through)? });
    }
    for (i, group) in descriptor.grown.iter().enumerate() {
        for (place, kind) in binder.kinds(group)?.into_iter().enumerate() {
            rules[kind.0 as usize].grown = Some((i as u16, place as u16));
        }
    }
    for (i, group) in descriptor.forms.iter().enumerate() {
        for kind in binder.kinds(group)? {
            rules[kind.0 as usize].form = Some(i as u16);
        }
    }

    let mut lists = Vec::new();
    for list in &descriptor.list {
        let separator = list.separator.as_ref().map(|s| binder.token(s)).transpose()?;
        for kind in binder.kinds(&list.kinds)? {
            let candidates = &mut rules[kind.0 as usize].lists;
            let anywhere = list.under.is_empty() && list.beside.is_empty() && list.within.is_empty();
            let at = if anywhere { candidates.len() } else { 0 };
            candidates.insert(at, lists.len() as u16);
        }
        lists.push(ListRule {
            under: list.under.clone(),
            beside: list.beside.clone(),
            amid: list.amid.clone(),
            through: list.through.clone(),
            governed: list.governed,
            within: list.within.iter().map(|path| binder.around(path)).collect::<Result<_, _>>()?,
            runs: list.runs,
            blocks: list.blocks.clone(),
            ends: list.ends.iter().map(|t| binder.token(t)).collect::<Result<_, _>>()?,
            entries: binder.kinds(&list.entries)?,
            before: binder.kinds(&list.before)?,
            tokens: list.tokens.iter().map(|t| binder.token(t)).collect::<Result<_, _>>()?,
            field: list.field.as_deref().map(|f| if f.is_empty() { Ok(0) } else { binder.field(f) }).transpose()?,
            separator,
            separator_text: list.separator.clone().unwrap_or_default().into_bytes(),
            first_separator: [if list.spaced { " " } else { "" }, list.separator.as_deref().unwrap_or_default()]
                .concat()
                .into_bytes(),
            lines: list.lines,
            aligned: list.aligned,
            free: list.free,
            keyed_by_text: list.key.is_some(),
            spelling: list.spelling,
            sorted: list.sorted,
            unique: list.unique,
            together: list.together,
        });
    }

    let mut entries = Vec::new();
    for entry in &descriptor.entry {
        let kind = binder.kind(&entry.kind)?;
        let candidates = &mut rules[kind.0 as usize].entries;
        let at = if entry.parents.is_empty() { candidates.len() } else { 0 };
        candidates.insert(at, entries.len() as u16);
        entries.push(EntryRule {
            parents: binder.kinds(&entry.parents)?,
            key: entry.key.iter().map(|p| binder.path(p)).collect::<Result<_, _>>()?,
            told_by: entry.told_by.clone(),
            nameless: entry.nameless.clone(),
            space: entry.space.clone(),
            spelling: entry.spelling,
            free: entry.free,
            plain: binder.kinds(&entry.plain)?,
            unique: entry.unique,
            variant: entry.variant.as_deref().map(|k| binder.kind(k)).transpose()?,
            unique_with: entry.unique_with.as_deref().map(|f| binder.field(f)).transpose()?,
            distinct: entry.distinct.as_deref().map(|f| binder.field(f)).transpose()?,
            barrier: entry.barrier,
            rank: entry.rank,
            binds: entry.binds.iter().map(|b| binder.binding(b)).collect::<Result<_, _>>()?,
            imports: entry.imports,
            takes: entry.takes,
            holds_longer: entry.holds_longer,
            last: entry.last,
            defines: entry.defines,
        });
    }
    let paths = descriptor.paths.as_ref().map(|paths| binder.paths(paths)).transpose()?;
    Ok(Bound { kind_of_symbol, symbols, rules, lists, entries, paths, inside })
}
