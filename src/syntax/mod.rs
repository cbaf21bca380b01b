//! Parsing, incremental and guarded, and the compact tree the rest works on.

mod build;
mod calls;
mod listed;
mod names;
mod parse;
mod tree;
mod variant;

pub(crate) use build::line_hash;
pub(crate) use calls::Callable;
pub(crate) use listed::{Listed, bare_hash, listed, listed_in, path_hash};
pub(crate) use parse::Known;
pub use parse::{ParseError, Parsed, parse_versions};
pub use tree::{Forgiven, Node, NodeId, Part, Span, Token, Tree};

/// Mixes `value` into the running hash `state`. Deterministic on every platform (contract K8); not
/// meant to withstand an adversary: equal hashes are believed only where a wrong answer would be
/// caught by the checks on the bytes.
pub(crate) fn mix(state: u64, value: u64) -> u64 {
    (state.rotate_left(5) ^ value).wrapping_mul(0x517c_c1b7_2722_0a95).rotate_left(23) ^ (value >> 7)
}

/// Hashes bytes with [`mix`].
pub(crate) fn hash_bytes(seed: u64, bytes: &[u8]) -> u64 {
    let mut chunks = bytes.chunks_exact(8);
    let mut state = mix(seed, bytes.len() as u64);
    for chunk in &mut chunks {
        state = mix(state, u64::from_le_bytes(chunk.try_into().expect("eight bytes")));
    }
    let rest = chunks.remainder().iter().rev().fold(0u64, |acc, b| acc << 8 | u64::from(*b));
    mix(state, rest)
}
