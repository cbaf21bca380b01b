pub fn publish<T, U>(tide: T, wind: U)
where
    T: Clone + Ord,
    U: Sync + Send,
{
    board(tide, wind);
}
