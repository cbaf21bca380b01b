pub fn chart<T>(curve: T) -> Chart
where
    T: tide::Level + Send,
{
    Chart::of(curve)
}
