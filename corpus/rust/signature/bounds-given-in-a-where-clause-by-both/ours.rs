pub fn publish<T, U>(tide: T, wind: U)
where
    T: Clone,
    U: Send,
{
    board(tide, wind);
}
