//! The books balance (contract K5): every token of the answer is accounted for by base and the edits.
//!
//! For a token, let a side have taken it out `x` times and put it in `i` times, by a token diff of each
//! of its line hunks against base; what went elsewhere with its line is neither, if base has it once and the other side
//! did not put it in. What both sides did alike may have been done once: `min(i)`, and if that
//! is more, its count in the lines that both put in; `min(x)`, or its count in the lines that both took out.
//! So the answer holds between `base + ours + theirs - min(i)` and `base + ours + theirs + min(x)` of it,
//! where `ours` and `theirs` are the sides' net changes. For a token that each side changed in one direction
//! only, this is the rule of the contract: the sum, where the directions differ or one is zero; else
//! between the larger and the sum.
//!
//! Where a language lists things by their paths, and the books do not balance by tokens, they are kept by those paths
//! (`paths_listed`): what stands before several of them is written once or more often, and that is layout.

use std::cell::LazyCell;

use gix::diff::blob::{self, Diff, InternedInput};
use rustc_hash::FxHashMap as HashMap;

use crate::Versions;
use crate::grammar::is_word;
use crate::line::{self, Algorithm};

/// A token, or a statement, whose count in the answer cannot be explained.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the answer has `{token}` {found} times, but the edits allow {least} to {most}")]
pub struct Unbalanced {
    /// The token, or what the statement begins with.
    pub token: String,
    /// How often the answer has it.
    pub found: i64,
    /// How often it must have it at least.
    pub least: i64,
    /// How often it may have it at most.
    pub most: i64,
}

#[derive(Clone, Copy, Default)]
struct Account {
    /// Its count in the answer less that in base.
    answer: i64,
    put_in: [i64; 2],
    taken_out: [i64; 2],
    /// In lines that both sides put in.
    put_in_alike: i64,
    /// In lines that both sides took out.
    taken_out_alike: i64,
}

/// The first token (in the order of bytes) whose count in `answer` is not balanced.
pub fn unbalanced(versions: Versions<&[u8]>, answer: &[u8]) -> Option<Unbalanced> {
    let mut accounts: HashMap<&[u8], Account> = HashMap::default();
    for (gone, come) in line::differences(versions.base, answer, Algorithm::Myers) {
        tokens(&versions.base[gone]).for_each(|t| accounts.entry(t).or_default().answer -= 1);
        tokens(&answer[come]).for_each(|t| accounts.entry(t).or_default().answer += 1);
    }
    let mut lines_out = [HashMap::default(), HashMap::default()];
    let mut lines_in = [HashMap::default(), HashMap::default()];
    for (s, side) in [versions.ours, versions.theirs].into_iter().enumerate() {
        for (gone, come) in line::differences(versions.base, side, Algorithm::Myers) {
            let (gone, come) = (&versions.base[gone], &side[come]);
            for (text, lines) in [(gone, &mut lines_out[s]), (come, &mut lines_in[s])] {
                line::lines(text).into_iter().for_each(|l| *lines.entry(l.trim_ascii()).or_insert(0i64) += 1);
            }
            for (token, out, put) in changes(tokens(gone), tokens(come)) {
                let account = accounts.entry(token).or_default();
                account.put_in[s] += put;
                account.taken_out[s] += out;
            }
        }
    }
    // What only moved, or stands further in, was neither put in nor taken out. Of words that base has more than once, nobody
    // knows which of them a side took out besides.
    let often = LazyCell::new(|| {
        let mut often: HashMap<&[u8], u32> = HashMap::default();
        tokens(versions.base).for_each(|token| *often.entry(token).or_default() += 1);
        often
    });
    for (s, (out, put)) in lines_out.iter_mut().zip(&mut lines_in).enumerate() {
        for (line, n) in out {
            let Some(m) = put.get_mut(line) else { continue };
            let both = (*n).min(*m);
            *n -= both;
            *m -= both;
            for token in tokens(line).filter(|token| often.get(token) == Some(&1)) {
                // If the other side put it in too, this side may have done so, and have taken out another.
                let Some(account) = accounts.get_mut(token).filter(|account| account.put_in[1 - s] == 0) else {
                    continue;
                };
                let moved = both.min(account.put_in[s]).min(account.taken_out[s]);
                account.put_in[s] -= moved;
                account.taken_out[s] -= moved;
            }
        }
    }
    for (line, n) in alike(&lines_in) {
        tokens(line).for_each(|t| accounts.entry(t).or_default().put_in_alike += n);
    }
    for (line, n) in alike(&lines_out) {
        tokens(line).for_each(|t| accounts.entry(t).or_default().taken_out_alike += n);
    }
    let mut wrong: Vec<Unbalanced> = accounts
        .into_iter()
        .filter_map(|(token, a)| {
            let sum = a.put_in[0] + a.put_in[1] - a.taken_out[0] - a.taken_out[1];
            let least = sum - a.put_in[0].min(a.put_in[1]).max(a.put_in_alike);
            let most = sum + a.taken_out[0].min(a.taken_out[1]).max(a.taken_out_alike);
            let balanced = (least..=most).contains(&a.answer);
            (!balanced).then(|| {
                let base = tokens(versions.base).filter(|t| *t == token).count() as i64;
                Unbalanced {
                    token: String::from_utf8_lossy(token).into_owned(),
                    found: base + a.answer,
                    least: base + least,
                    most: base + most,
                }
            })
        })
        .collect();
    wrong.sort_by(|x, y| x.token.cmp(&y.token));
    wrong.into_iter().next()
}

/// The lines that are in both counts, and how often.
fn alike<'t>(counts: &[HashMap<&'t [u8], i64>; 2]) -> impl Iterator<Item = (&'t [u8], i64)> {
    counts[0].iter().filter_map(|(line, n)| Some((*line, *n.min(counts[1].get(line)?))))
}

/// Beyond this many pairs of tokens a hunk is not compared token by token, but only counted.
const PAIR_LIMIT: usize = 16_000_000;

/// How often each token was taken out of a hunk and put into it. Words are compared by themselves: signs, which are much
/// the same everywhere, would tell one word for another.
fn changes<'t>(
    gone: impl Iterator<Item = &'t [u8]>,
    come: impl Iterator<Item = &'t [u8]>,
) -> Vec<(&'t [u8], i64, i64)> {
    let (gone, come) = (gone.collect::<Vec<_>>(), come.collect::<Vec<_>>());
    let words = |tokens: &[&'t [u8]]| tokens.iter().copied().filter(|token| is_word(token[0])).collect::<Vec<_>>();
    let mut counts = differences(&gone, &come);
    counts.retain(|(token, ..)| !is_word(token[0]));
    counts.extend(differences(&words(&gone), &words(&come)));
    counts
}

/// How often each token was taken out and put in, by a diff of some tokens.
fn differences<'t>(gone: &[&'t [u8]], come: &[&'t [u8]]) -> Vec<(&'t [u8], i64, i64)> {
    let mut hunk = InternedInput::default();
    hunk.update_before(gone.iter().copied());
    hunk.update_after(come.iter().copied());
    let mut counts = vec![(&b""[..], 0, 0); hunk.interner.num_tokens() as usize];
    let compared = hunk.before.len().saturating_mul(hunk.after.len()) <= PAIR_LIMIT;
    let diff = compared.then(|| Diff::compute(blob::Algorithm::MyersMinimal, &hunk));
    for (i, token) in (0..).zip(&hunk.before) {
        let (text, out, _) = &mut counts[token.0 as usize];
        *text = hunk.interner[*token];
        *out += i64::from(diff.as_ref().is_none_or(|d| d.is_removed(i)));
    }
    for (i, token) in (0..).zip(&hunk.after) {
        let (text, _, put) = &mut counts[token.0 as usize];
        *text = hunk.interner[*token];
        *put += i64::from(diff.as_ref().is_none_or(|d| d.is_added(i)));
    }
    if !compared {
        for (_, out, put) in &mut counts {
            (*out, *put) = ((*out - *put).max(0), (*put - *out).max(0));
        }
    }
    counts
}

/// The words and signs of a text. White space, separators and quotes are none: which quotes enclose
/// a string is layout, and its words count. A letter behind a backslash is a sign: a string may go on
/// with a word right behind it, or on the next line.
pub(super) fn tokens(text: &[u8]) -> impl Iterator<Item = &[u8]> {
    let mut at = 0;
    std::iter::from_fn(move || {
        loop {
            let first = *text.get(at)?;
            let start = at;
            at += 1;
            if first == b'\\' && text.get(at).is_some_and(u8::is_ascii_alphanumeric) {
                at += 1;
                return Some(&text[at - 1..at]);
            }
            if is_word(first) {
                while text.get(at).is_some_and(|b| is_word(*b)) {
                    at += 1;
                }
                return Some(&text[start..at]);
            }
            if !first.is_ascii_whitespace() && !matches!(first, b',' | b';' | b'\\' | b'\'' | b'"') {
                return Some(&text[start..at]);
            }
        }
    })
}
