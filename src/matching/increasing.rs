//! What stands in one order in two lists.

/// The indices of the heaviest strictly increasing subsequence (Jacobson and Vo, "Heaviest increasing/common
/// subsequence problems", 1992), here with a tree of greatest sums over the values' ranks.
pub(crate) fn heaviest_increasing(values: &[usize], weight: impl Fn(usize) -> u64) -> Vec<usize> {
    if values.windows(2).all(|w| w[0] < w[1]) {
        return (0..values.len()).collect();
    }
    let mut ranks: Vec<usize> = values.to_vec();
    ranks.sort_unstable();
    ranks.dedup();
    // For each prefix of ranks, in the manner of a Fenwick tree: the greatest sum that ends in it, and with which
    // index.
    let mut greatest: Vec<Option<(u64, usize)>> = vec![None; ranks.len() + 1];
    let mut previous: Vec<Option<usize>> = Vec::with_capacity(values.len());
    let better =
        |a: Option<(u64, usize)>, b: Option<(u64, usize)>| if b.map(|x| x.0) >= a.map(|x| x.0) { b } else { a };
    let within = |greatest: &[Option<(u64, usize)>], mut prefix: usize| {
        let mut found = None;
        while prefix > 0 {
            found = better(found, greatest[prefix]);
            prefix &= prefix - 1;
        }
        found
    };
    for (i, value) in values.iter().enumerate() {
        let rank = ranks.partition_point(|r| r < value);
        let before = within(&greatest, rank);
        previous.push(before.map(|(_, index)| index));
        let sum = (before.map_or(0, |(sum, _)| sum) + weight(i), i);
        let mut at = rank + 1;
        while at < greatest.len() {
            greatest[at] = better(greatest[at], Some(sum));
            at += at & at.wrapping_neg();
        }
    }
    let mut out = Vec::with_capacity(values.len());
    let mut at = within(&greatest, ranks.len()).map(|(_, index)| index);
    while let Some(i) = at {
        out.push(i);
        at = previous[i];
    }
    out.reverse();
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By all subsequences of short sequences.
    #[test]
    fn no_increasing_subsequence_is_heavier() {
        let mut state = 7u32;
        let mut random = |below: u32| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 16) % below
        };
        for _ in 0..500 {
            let length = random(9) as usize;
            let values: Vec<usize> = (0..length).map(|_| random(9) as usize).collect();
            let weights: Vec<u64> = (0..length).map(|_| u64::from(1 + random(5))).collect();
            let sum = |indices: &[usize]| indices.iter().map(|i| weights[*i]).sum::<u64>();
            let increasing = |indices: &[usize]| indices.windows(2).all(|w| values[w[0]] < values[w[1]]);
            let all = (0..1u32 << length).map(|set| (0..length).filter(|i| set >> i & 1 == 1).collect::<Vec<_>>());
            let heaviest = all.filter(|indices| increasing(indices)).map(|indices| sum(&indices)).max();
            let found = heaviest_increasing(&values, |i| weights[i]);
            assert!(increasing(&found), "{values:?} {found:?}");
            assert_eq!(Some(sum(&found)), heaviest, "{values:?} {weights:?} {found:?}");
        }
    }

    /// Equal weights: the sequence whose last value is the smallest, as in patience sorting.
    #[test]
    fn of_equal_weights_the_lowest_stays() {
        assert_eq!(heaviest_increasing(&[1, 0], |_| 1), [1]);
        assert_eq!(heaviest_increasing(&[0, 5, 3], |_| 1), [0, 2]);
        assert_eq!(heaviest_increasing(&[1, 0], |i| [2, 1][i]), [0]);
    }
}
