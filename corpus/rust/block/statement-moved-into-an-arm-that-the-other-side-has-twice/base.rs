fn headings(board: &Board) -> Result<Heads, Fault> {
    match board {
        Board::Named(fields) => {
            read_field(fields)?;
            heads = table! {
                let heads = Heads::Named(sorted(collect![#(#fields),*]));
            };
        }
        Board::Plain(fields) => {
            for field in fields {
                read_field(
                    &mut known,
                )?;
            }
            if !fields.is_empty() {
                heads = table! {
                    let heads = Heads::Plain(sorted(collect![#(#fields),*]));
                };
            }
        }
    }
}
