pub fn publish<T, U>(tide: T, wind: U)
where
    T: Clone + Ord,
    U: Send + Sync,
{
    board(tide, wind);
}
