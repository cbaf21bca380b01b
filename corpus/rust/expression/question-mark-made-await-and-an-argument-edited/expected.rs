async fn refresh(board: &Board) -> Option<Tides> {
    let tides = board.fetch(STATION, 3).await;
    Some(tides)
}
