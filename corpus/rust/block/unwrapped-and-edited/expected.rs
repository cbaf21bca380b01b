fn refresh(board: &mut Board) {
    for panel in board.panels() {
        let rows = panel.load();
        panel.draw(&rows);
    }
}
