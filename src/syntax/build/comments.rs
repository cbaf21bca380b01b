//! Comments go to what they describe.

use super::read::{Kids, Raw, column};
use crate::grammar::Language;

/// Gives comments to the list they are indented with. A grammar in which indentation closes a list
/// reads a comment before the first or after the last entry outside of it. So does one in which the ends of lines belong
/// to a list, with comments behind the last of them: whether a file ends with a line ending says nothing of what is in it.
pub(super) fn rehome_comments(source: &[u8], raws: &mut [Raw], language: &'static Language) {
    let comment = |raws: &[Raw], id: u32| language.rule(raws[id as usize].kind).comment;
    let open_list = |raws: &[Raw], id: u32| {
        let raw = &raws[id as usize];
        language.lists_lines(raw.kind) && raw.kids.last().is_some_and(|k| raws[*k as usize].named)
    };
    for parent in (0..raws.len() as u32).rev() {
        if !raws[parent as usize].kids.iter().any(|k| comment(raws, *k)) {
            continue;
        }
        let kids = std::mem::take(&mut raws[parent as usize].kids);
        let mut kept = Kids::with_capacity(kids.len());
        let behind_all = kids.iter().rposition(|k| !comment(raws, *k)).map_or(0, |last| last + 1);
        for (i, kid) in kids.into_iter().enumerate() {
            if comment(raws, kid) {
                if let Some(col) = column(source, raws[kid as usize].span.start)
                    && let Some(previous) = kept.last().copied()
                    && let Some(list) = trailing_list(source, raws, previous, col, i >= behind_all, &open_list)
                {
                    let end = raws[kid as usize].span.end;
                    raws[list as usize].kids.push(kid);
                    // Every node between the list and here now reaches to the comment's end.
                    let mut at = previous;
                    loop {
                        raws[at as usize].span.end = end;
                        if at == list {
                            break;
                        }
                        at = *raws[at as usize].kids.last().expect("the list is a last descendant");
                        if !contains_raw(raws, at, list) {
                            break;
                        }
                    }
                    continue;
                }
            } else if open_list(raws, kid) && raws[parent as usize].kind != raws[kid as usize].kind {
                let moved = kept
                    .iter()
                    .rev()
                    .take_while(|k| comment(raws, **k) && column(source, raws[**k as usize].span.start).is_some())
                    .count();
                if moved > 0 && kept.len() > moved {
                    let mut front: Kids = kept.drain(kept.len() - moved..).collect();
                    raws[kid as usize].span.start = raws[front[0] as usize].span.start;
                    front.append(&mut raws[kid as usize].kids);
                    raws[kid as usize].kids = front;
                }
            }
            kept.push(kid);
        }
        raws[parent as usize].kids = kept;
    }
}

/// Takes comments out of a list that no token closes where they stand right above the list's next
/// sibling, or before the list's own first token: they describe what follows.
pub(super) fn hoist_comments(source: &[u8], raws: &mut [Raw], language: &'static Language) {
    let newlines = |from: u32, to: u32| source[from as usize..to as usize].iter().filter(|b| **b == b'\n').count();
    for parent in (0..raws.len()).rev() {
        if !language.lists_lines(raws[parent].kind) {
            continue;
        }
        let kids = std::mem::take(&mut raws[parent].kids);
        let mut out = Kids::with_capacity(kids.len());
        for (i, kid) in kids.iter().enumerate() {
            let list = language.lists_lines(raws[*kid as usize].kind);
            let comment = |raws: &[Raw], k: &u32| language.rule(raws[*k as usize].kind).comment;
            if !list {
                out.push(*kid);
                continue;
            }
            let leading = raws[*kid as usize].kids.iter().take_while(|k| comment(raws, k)).count();
            if raws[*kid as usize].kids.get(leading).is_some_and(|k| !raws[*k as usize].named) {
                let rest: Kids = raws[*kid as usize].kids.drain(leading..).collect();
                out.append(&mut raws[*kid as usize].kids);
                raws[*kid as usize].span.start = raws[rest[0] as usize].span.start;
                raws[*kid as usize].kids = rest;
            }
            out.push(*kid);
            let Some(next) = kids.get(i + 1) else { continue };
            let mut below = raws[*next as usize].span.start;
            let col = column(source, below);
            let mut moved = 0;
            for k in raws[*kid as usize].kids.iter().rev().take_while(|k| comment(raws, k)) {
                let span = raws[*k as usize].span;
                if newlines(span.end, below) != 1 || col.is_none() || column(source, span.start) != col {
                    break;
                }
                below = span.start;
                moved += 1;
            }
            let keep = raws[*kid as usize].kids.len() - moved;
            if moved > 0 && keep > 0 {
                out.extend(raws[*kid as usize].kids.drain(keep..));
                let last = *raws[*kid as usize].kids.last().expect("some were kept");
                raws[*kid as usize].span.end = raws[last as usize].span.end;
            }
        }
        raws[parent].kids = out;
    }
}

fn contains_raw(raws: &[Raw], outer: u32, inner: u32) -> bool {
    let mut at = outer;
    loop {
        if at == inner {
            return true;
        }
        match raws[at as usize].kids.last() {
            Some(k) => at = *k,
            None => return false,
        }
    }
}

/// The innermost list that ends with `node` and is indented no deeper than column `col`. Unless a list in it is indented
/// deeper, only what stands `behind_all` is known to be in it.
fn trailing_list(
    source: &[u8],
    raws: &[Raw],
    node: u32,
    col: usize,
    behind_all: bool,
    open_list: &dyn Fn(&[Raw], u32) -> bool,
) -> Option<u32> {
    let mut found = None;
    let mut at = node;
    loop {
        if open_list(raws, at) {
            let first = raws[at as usize].kids[0];
            if column(source, raws[first as usize].span.start).is_none_or(|list_col| list_col > col) {
                return found;
            }
            found = Some(at);
        }
        let Some(last) = raws[at as usize].kids.last() else { return found.filter(|_| behind_all) };
        at = *last;
    }
}
