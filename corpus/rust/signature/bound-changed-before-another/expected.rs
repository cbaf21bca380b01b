pub fn chart<T>(curve: T) -> Chart
where
    T: tides::Level + Send,
{
    Chart::of(curve)
}
