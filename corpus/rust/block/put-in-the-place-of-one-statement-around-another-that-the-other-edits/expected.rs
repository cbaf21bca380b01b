fn settle(board: &mut Board) {
    {
        match board.lamp % 4 {
            2 => board.flow -= low(board.gauge),
            _ => {
                match board.wind % 6 {
                    1 | 7 => board.flow -= STEP,
                    2 => board.tide = [board.wind, 71, board.gauge].iter().sum::<i64>() % 1009,
                }
            }
        }
        if board.tide % 2 != 0 && board.tide % 5 > 1 {
        }
    }
}
