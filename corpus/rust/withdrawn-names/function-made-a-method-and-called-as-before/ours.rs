struct Board {
    level: i64,
}

impl Board {
    fn scaled(&self, by: i64) -> i64 {
        self.level * by
    }
}

fn publish(board: &Board) -> i64 {
    board.scaled(3)
}
