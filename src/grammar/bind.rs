//! Turns a descriptor's names into the numbers of a tree-sitter language, once, at load.

use rustc_hash::{FxBuildHasher, FxHashMap as HashMap};

use super::OWN;
use super::descriptor::{Calls, Descriptor, EntryDescriptor, ListDescriptor, Paths};
use super::rules::{CallRules, EntryRule, KeyPath, Kind, KindRule, LeavesRule, ListRule, PathRules, Step};

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

    fn calls(&self, calls: &Calls) -> Result<CallRules, BindError> {
        Ok(CallRules {
            called: self.binding(&calls.called)?,
            member_of: calls.member_of.as_deref().map(|part| self.binding(part)).transpose()?,
            takes: self.binding(&calls.takes)?,
            by_name: calls.by_name,
            object: self.kinds(&calls.object)?,
            constructor: calls.constructor.clone(),
            around: calls.around.clone(),
            opens: calls.opens.clone(),
            needed: self.kinds(&calls.needed)?,
            optional: self.kinds(&calls.optional)?,
            names_behind: self.kinds(&calls.names_behind)?,
            places_before: self.kinds(&calls.places_before)?,
            any_placed: self.kinds(&calls.any_placed)?,
            any_named: self.kinds(&calls.any_named)?,
            named: self.kinds(&calls.named)?,
            spread: self.kinds(&calls.spread)?,
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

    /// What is known of each of so many kinds, lists and entries aside, and what goes out of what.
    fn rules(&self, descriptor: &Descriptor, count: usize) -> Result<(Rules, Vec<LeavesRule>), BindError> {
        let mut rules = Rules { number_of_kind: vec![0; count], rules: vec![KindRule::default()] };
        let mut mark = |names: &[String], set: fn(&mut KindRule)| -> Result<(), BindError> {
            for kind in self.kinds(names)? {
                set(rules.change(kind));
            }
            Ok(())
        };
        mark(&descriptor.comments, |r| r.comment = true)?;
        mark(&descriptor.inner, |r| r.inner = true)?;
        mark(&descriptor.prefixes, |r| r.prefix = true)?;
        mark(&descriptor.text, |r| r.text = true)?;
        mark(&descriptor.remarks, |r| r.remark = true)?;
        mark(&descriptor.quoted, |r| r.quoted = true)?;
        mark(&descriptor.continued, |r| r.continued = true)?;
        mark(&descriptor.joint, |r| r.joint = true)?;
        mark(&descriptor.unordered, |r| r.unordered = true)?;
        mark(&descriptor.closer, |r| r.closer = true)?;
        mark(&descriptor.owners, |r| r.owner = true)?;
        mark(&descriptor.itself, |r| r.itself = true)?;
        mark(&descriptor.hides, |r| r.hides = true)?;
        mark(&descriptor.walls, |r| r.wall = true)?;

        for text in &descriptor.interpolated {
            let rule = rules.change(self.kind(&text.kind)?);
            (rule.interpolated, rule.interpolated_in_runs) = (text.marks.clone().into_bytes(), text.runs);
        }
        for text in &descriptor.unmarked {
            rules.change(self.kind(&text.kind)?).unmarked = text.marks.clone().into_bytes();
        }
        for text in &descriptor.raw {
            rules.change(self.kind(&text.kind)?).raw = text.marks.clone().into_bytes();
        }
        for member in &descriptor.members {
            let (kind, field) = self.binding(member)?;
            rules.change(kind).members.extend(field);
        }
        for governing in &descriptor.governs {
            let (kind, field) = self.binding(governing)?;
            // A kind alone has no such part.
            rules.change(kind).governs.push(field.unwrap_or(0));
        }
        for counts in &descriptor.counts {
            let ways = [self.path(&counts.number)?, self.path(&counts.what)?];
            for kind in self.kinds(&counts.kinds)? {
                rules.change(kind).counts = Some(ways.clone());
            }
        }
        for (place, kind) in (1..).zip(self.kinds(&descriptor.optional)?) {
            rules.change(kind).optional = place;
        }
        for declared in &descriptor.declares {
            let (kind, field) = self.binding(declared)?;
            rules.change(kind).declares.push(field.unwrap_or(0));
        }
        for bound in &descriptor.rebinds {
            let (kind, field) = self.binding(bound)?;
            rules.change(kind).rebinds.extend(field);
        }
        for needs in &descriptor.needs {
            let rule = rules.change(self.kind(&needs.kind)?);
            (rule.needs, rule.needs_beside) = (self.kinds(&needs.one_of)?, self.kinds(&needs.beside)?);
        }
        for unended in &descriptor.unended {
            let (kind, part) = self.binding(&unended.part)?;
            let beside = self.field(&unended.beside)?;
            rules.change(kind).unended = Some((part.unwrap_or(0), beside, unended.sign.clone()));
        }
        let mut leaves = Vec::new();
        for (i, rule) in (0..).zip(&descriptor.leaves) {
            for kind in self.kinds(&rule.kinds)? {
                rules.change(kind).leaves = Some(i);
                rules.change(kind).answers = rule.answers.as_ref().map(|way| self.path(way)).transpose()?;
            }
            let what = rule.what.iter().map(|part| self.binding(part)).collect::<Result<_, _>>()?;
            let (not_through, unless) = (self.kinds(&rule.not_through)?, self.kinds(&rule.unless)?);
            let marked = rule.marked.as_ref().map(|token| self.token(token)).transpose()?;
            leaves.push(LeavesRule { what, not_through, marked, unless });
        }
        for kind in (0..count as u16).map(Kind) {
            if leaves.iter().any(|leaves| leaves.ends_at(kind)) {
                rules.change(kind).left = true;
            }
        }
        for (i, group) in descriptor.grown.iter().enumerate() {
            for (place, kind) in self.kinds(group)?.into_iter().enumerate() {
                rules.change(kind).grown = Some((i as u16, place as u16));
            }
        }
        for (i, group) in descriptor.forms.iter().enumerate() {
            for kind in self.kinds(group)? {
                rules.change(kind).form = Some(i as u16);
            }
        }
        Ok((rules, leaves))
    }

    fn list(&self, list: &ListDescriptor) -> Result<ListRule, BindError> {
        let separator = list.separator.as_ref().map(|s| self.token(s)).transpose()?;
        list.pairs.iter().flatten().try_for_each(|sign| self.token(sign).map(drop))?;
        Ok(ListRule {
            under: list.under.clone(),
            beside: list.beside.clone(),
            amid: list.amid.clone(),
            through: list.through.clone(),
            governed: list.governed,
            within: list.within.iter().map(|path| self.around(path)).collect::<Result<_, _>>()?,
            runs: list.runs,
            blocks: list.blocks.clone(),
            pairs: list.pairs.clone(),
            ends: list.ends.iter().map(|t| self.token(t)).collect::<Result<_, _>>()?,
            entries: self.kinds(&list.entries)?,
            before: self.kinds(&list.before)?,
            tokens: list.tokens.iter().map(|t| self.token(t)).collect::<Result<_, _>>()?,
            field: list.field.as_deref().map(|f| if f.is_empty() { Ok(0) } else { self.field(f) }).transpose()?,
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
            alike: list.alike,
            unique: list.unique,
            together: list.together,
            implies: list.implies.as_ref().map(|kind| self.kind(kind)).transpose()?,
        })
    }

    fn entry(&self, entry: &EntryDescriptor) -> Result<EntryRule, BindError> {
        Ok(EntryRule {
            parents: self.kinds(&entry.parents)?,
            key: entry.key.iter().map(|p| self.path(p)).collect::<Result<_, _>>()?,
            told_by: entry.told_by.clone(),
            nameless: entry.nameless.clone(),
            space: entry.space.clone(),
            spelling: entry.spelling,
            free: entry.free,
            plain: self.kinds(&entry.plain)?,
            unique: entry.unique,
            variant: entry.variant.as_deref().map(|kind| self.kind(kind)).transpose()?,
            unique_with: entry.unique_with.as_deref().map(|f| self.field(f)).transpose()?,
            distinct: entry.distinct.as_deref().map(|f| self.field(f)).transpose()?,
            barrier: entry.barrier,
            rank: entry.rank,
            binds: entry.binds.iter().map(|b| self.binding(b)).collect::<Result<_, _>>()?,
            foremost: !entry.foremost.is_empty(),
            imports: entry.imports,
            anywhere: entry.anywhere,
            takes: entry.takes,
            holds_longer: entry.holds_longer,
            last: entry.last,
            local: entry.local,
            defines: entry.defines,
        })
    }
}

/// What a descriptor says, in the numbers of a parser's language.
#[derive(Debug)]
pub(super) struct Bound {
    /// Our kind for each of the parser's kind ids (aliases of one name share a kind).
    pub kind_of_symbol: Vec<Kind>,
    /// The first of the parser's kind ids of each kind, after those of our own.
    pub symbols: Vec<u16>,
    /// What is known of each kind.
    pub rules: Rules,
    /// All list rules, referred to by index.
    pub lists: Vec<ListRule>,
    /// All entry rules, referred to by index.
    pub entries: Vec<EntryRule>,
    /// What is listed by its path, if anything is.
    pub paths: Option<PathRules>,
    /// How calls and definitions fit together, if that is known.
    pub calls: Vec<CallRules>,
    /// What goes out of what, referred to by index.
    pub leaves: Vec<LeavesRule>,
}

/// What is known of each kind. Of most there is nothing to know, and all of these are one: what is read at each start
/// of the program had better be small.
#[derive(Debug)]
pub(super) struct Rules {
    number_of_kind: Vec<u16>,
    /// The first is that of which there is nothing to know.
    rules: Vec<KindRule>,
}

impl Rules {
    pub fn of(&self, kind: Kind) -> &KindRule {
        &self.rules[usize::from(self.number_of_kind[usize::from(kind.0)])]
    }

    fn change(&mut self, kind: Kind) -> &mut KindRule {
        let number = &mut self.number_of_kind[usize::from(kind.0)];
        if *number == 0 {
            *number = self.rules.len() as u16;
            self.rules.push(KindRule::default());
        }
        &mut self.rules[usize::from(*number)]
    }
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

    let (mut rules, leaves) = binder.rules(descriptor, OWN.len() + symbols.len())?;
    let mut lists = Vec::new();
    for list in &descriptor.list {
        for kind in binder.kinds(&list.kinds)? {
            let candidates = &mut rules.change(kind).lists;
            let anywhere = list.under.is_empty() && list.beside.is_empty() && list.within.is_empty();
            let at = if anywhere { candidates.len() } else { 0 };
            candidates.insert(at, lists.len() as u16);
        }
        lists.push(binder.list(list)?);
    }
    let mut entries = Vec::new();
    for entry in &descriptor.entry {
        let kind = binder.kind(&entry.kind)?;
        let candidates = &mut rules.change(kind).entries;
        let at = if entry.parents.is_empty() { candidates.len() } else { 0 };
        candidates.insert(at, entries.len() as u16);
        entries.push(binder.entry(entry)?);
    }
    let paths = descriptor.paths.as_ref().map(|paths| binder.paths(paths)).transpose()?;
    let calls = descriptor.calls.iter().map(|calls| binder.calls(calls)).collect::<Result<_, _>>()?;
    Ok(Bound { kind_of_symbol, symbols, rules, lists, entries, paths, calls, leaves })
}
