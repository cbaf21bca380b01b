pub fn publish<T, U>(tide: T, wind: U)
where
    T: Clone,
{
    board(tide, wind);
}
