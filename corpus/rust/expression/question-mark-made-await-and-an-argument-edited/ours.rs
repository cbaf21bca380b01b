async fn refresh(board: &Board) -> Option<Tides> {
    let tides = board.fetch(STATION, 2).await;
    Some(tides)
}
