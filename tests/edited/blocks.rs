//! Reading conflict blocks, from git's documentation alone (`git help merge`, "HOW CONFLICTS ARE
//! PRESENTED"): a block starts at a line of seven `<`, ends at a line of seven `>`, has a line of
//! seven `=` between, and in diff3 style one of seven `|` before that.

/// A piece of a merged text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stretch {
    Agreed(Vec<u8>),
    Block { ours: Vec<u8>, base: Option<Vec<u8>>, theirs: Vec<u8> },
}

/// Cuts a merged text at its conflict blocks.
///
/// Fails if the markers are not properly nested: a block must be whole.
pub fn stretches(text: &[u8]) -> Result<Vec<Stretch>, String> {
    enum At {
        Outside,
        Ours,
        Base,
        Theirs,
    }
    let mut found = Vec::new();
    let mut at = At::Outside;
    let (mut agreed, mut ours, mut base, mut theirs) = (Vec::new(), Vec::new(), None::<Vec<u8>>, Vec::new());
    for (number, line) in text.split_inclusive(|b| *b == b'\n').enumerate() {
        let wrong = |what: &str| Err(format!("line {}: {what}", number + 1));
        match (marker(line), &at) {
            (Some(b'<'), At::Outside) => {
                found.push(Stretch::Agreed(std::mem::take(&mut agreed)));
                at = At::Ours;
            }
            (Some(b'<'), _) => return wrong("a block inside a block"),
            (Some(b'|'), At::Ours) => {
                base = Some(Vec::new());
                at = At::Base;
            }
            (Some(b'='), At::Ours | At::Base) => at = At::Theirs,
            (Some(b'>'), At::Theirs) => {
                found.push(Stretch::Block {
                    ours: std::mem::take(&mut ours),
                    base: base.take(),
                    theirs: std::mem::take(&mut theirs),
                });
                at = At::Outside;
            }
            (Some(b'>'), At::Outside) => return wrong("the end of no block"),
            (Some(b'>'), _) => return wrong("a block without a middle"),
            (_, At::Outside) => agreed.extend_from_slice(line),
            (_, At::Ours) => ours.extend_from_slice(line),
            (_, At::Base) => base.get_or_insert_default().extend_from_slice(line),
            (_, At::Theirs) => theirs.extend_from_slice(line),
        }
    }
    if !matches!(at, At::Outside) {
        return Err("a block without an end".to_owned());
    }
    found.push(Stretch::Agreed(agreed));
    Ok(found)
}

/// The marker a line is, if it is one: seven signs, then a space or the end of the line.
fn marker(line: &[u8]) -> Option<u8> {
    let sign = *line.first()?;
    let rest = line.strip_prefix(&[sign; 7][..])?;
    (b"<|=>".contains(&sign) && matches!(rest.first(), None | Some(b' ' | b'\n' | b'\r'))).then_some(sign)
}

/// How many blocks, and how many lines stand in them.
pub fn count(text: &[u8]) -> Result<(usize, usize), String> {
    let lines = |text: &[u8]| text.split_inclusive(|b| *b == b'\n').count();
    let (mut blocks, mut inside) = (0, 0);
    for stretch in stretches(text)? {
        if let Stretch::Block { ours, base, theirs } = stretch {
            blocks += 1;
            inside += lines(&ours) + lines(&base.unwrap_or_default()) + lines(&theirs);
        }
    }
    Ok((blocks, inside))
}

/// The text with ours (`side` 0) or theirs (1) taken in every block.
pub fn choose(text: &[u8], side: usize) -> Result<Vec<u8>, String> {
    let mut chosen = Vec::new();
    for stretch in stretches(text)? {
        chosen.extend(match stretch {
            Stretch::Agreed(text) => text,
            Stretch::Block { ours, .. } if side == 0 => ours,
            Stretch::Block { theirs, .. } => theirs,
        });
    }
    Ok(chosen)
}

#[test]
fn blocks_are_counted_and_chosen_from() {
    let text = b"a\n<<<<<<< ours\nb\nc\n=======\nd\n>>>>>>> theirs\n=======x\n";
    assert_eq!(count(text), Ok((1, 3)));
    assert_eq!(choose(text, 0).unwrap(), b"a\nb\nc\n=======x\n");
    assert_eq!(choose(text, 1).unwrap(), b"a\nd\n=======x\n");
    assert!(count(b"<<<<<<< ours\n=======\n").is_err());
    assert!(count(b"<<<<<<< ours\n>>>>>>> theirs\n").is_err());
}
