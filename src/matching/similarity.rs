//! How alike two nodes are: the Dice coefficient of their bags of words.
//!
//! L. R. Dice, "Measures of the Amount of Ecologic Association Between Species" (1945).

use std::rc::Rc;

use rustc_hash::FxHashMap as HashMap;

use crate::grammar::{self, is_word};
use crate::syntax::{NodeId, Token, Tree, hash_bytes};

/// The sorted word hashes of nodes, made when first asked for.
#[derive(Debug, Default)]
pub struct Bags {
    made: HashMap<(NodeId, Of), Rc<[u64]>>,
}

impl Bags {
    /// The words of a node, sorted, with or without keywords; all its tokens, if none is a word.
    pub(crate) fn of(&mut self, tree: &Tree<'_>, node: NodeId, keywords: bool) -> Rc<[u64]> {
        self.bag(tree, node, if keywords { Of::Words } else { Of::Names })
    }

    /// As [`Self::of`], less what comments say; the same bag, if there are none.
    pub(crate) fn code(&mut self, tree: &Tree<'_>, node: NodeId, keywords: bool) -> Rc<[u64]> {
        let code = if keywords { Of::Code } else { Of::CodeNames };
        if let Some(made) = self.made.get(&(node, code)) {
            return Rc::clone(made);
        }
        if tree.is_comment(node) || !tree.tokens(tree.node(node).core).iter().any(|token| token.comment) {
            let bag = self.of(tree, node, keywords);
            self.made.insert((node, code), Rc::clone(&bag));
        }
        self.bag(tree, node, code)
    }

    /// All tokens of a node, sorted, signs too.
    pub(crate) fn whole(&mut self, tree: &Tree<'_>, node: NodeId) -> Rc<[u64]> {
        self.bag(tree, node, Of::Tokens)
    }

    fn bag(&mut self, tree: &Tree<'_>, node: NodeId, of: Of) -> Rc<[u64]> {
        self.made
            .entry((node, of))
            .or_insert_with(|| {
                let core = tree.node(node).core;
                let mut bag: Vec<u64> = Vec::new();
                let counts = |t: &&Token| match of {
                    Of::Names => t.word,
                    Of::Words => t.word || t.keyword,
                    Of::CodeNames => t.word && !t.comment,
                    Of::Code => (t.word || t.keyword) && !t.comment,
                    Of::Tokens => true,
                };
                for token in tree.tokens(core).iter().filter(counts) {
                    let text = tree.text(token.span);
                    if text.len() > 12 && text.iter().any(|b| !is_word(*b)) {
                        // A string or a comment is as alike as its words are.
                        bag.extend(words(text));
                    } else {
                        bag.push(token.hash);
                    }
                }
                if bag.is_empty() {
                    bag = tree.tokens(core).iter().map(|t| t.hash).collect();
                }
                bag.sort_unstable();
                bag.into()
            })
            .clone()
    }
}

/// What of a node is in its bag.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Of {
    Names,
    Words,
    CodeNames,
    Code,
    Tokens,
}

/// The hashes of the words in a text.
pub(crate) fn words(text: &[u8]) -> impl Iterator<Item = u64> {
    grammar::words(text).map(|w| hash_bytes(9, w))
}

/// Twice the size of the common part over the sum of the sizes.
pub(crate) fn dice<T: Ord>(a: &[T], b: &[T]) -> f32 {
    if a.is_empty() && b.is_empty() {
        return 1.0;
    }
    2.0 * common(a, b) as f32 / (a.len() + b.len()) as f32
}

/// Whether a bag holds another one and more.
pub(crate) fn exceeds(bag: &[u64], other: &[u64]) -> bool {
    bag.len() > other.len() && common(bag, other) as usize == other.len()
}

/// The size of the common part of two sorted bags.
fn common<T: Ord>(a: &[T], b: &[T]) -> u32 {
    let (mut i, mut j, mut common) = (0, 0, 0u32);
    while i < a.len() && j < b.len() {
        match a[i].cmp(&b[j]) {
            std::cmp::Ordering::Less => i += 1,
            std::cmp::Ordering::Greater => j += 1,
            std::cmp::Ordering::Equal => {
                common += 1;
                i += 1;
                j += 1;
            }
        }
    }
    common
}
