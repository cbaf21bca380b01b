fn refresh(board: &mut Board, timeout: u32) {
    let address = board.address();
    connect(board, &address, timeout);
}

fn connect(board: &mut Board, address: &str, timeout: u32) {
    let parsed = split_address(address);
    let certificate = certificate_of(&parsed.host, parsed.port);
    let connection = open_connection(&parsed, board.patience(timeout), Retry::Twice);
    board.show(connection);
}
