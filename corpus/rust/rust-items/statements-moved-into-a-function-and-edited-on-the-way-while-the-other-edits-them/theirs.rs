fn refresh(board: &mut Board, timeout: u32) {
    let address = board.address();
    let parsed = split_address(&address);
    let certificate = certificate_of(&parsed.host, parsed.port);
    let connection = open_connection(&parsed, timeout, Retry::Twice);
    board.show(connection);
}
