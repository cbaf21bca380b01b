fn headings(board: &Board) -> Result<Heads, Fault> {
    match board {
        Board::Named(fields) => {
            read_field(fields)?;
        }
        Board::Plain(fields) => {
            for field in fields {
                read_field(
                )?;
            }
            if !fields.is_empty() {
                heads = table! {
                    let heads = Heads::Named(sorted(collect![#(#fields),*]));
                };
                heads = table! {
                    let heads = Heads::Plain(sorted(collect![#(#fields),*]));
                };
            }
        }
        Board::Plain(fields) => {
            for field in fields {
                read_field(
                    field,
                    board,
                    &mut known,
                )?;
            }
            if !fields.is_empty() {
                heads = table! {
                    let heads = Heads::Plain(sorted(gather![#(#fields),*]));
                };
            }
        }
    }
}
