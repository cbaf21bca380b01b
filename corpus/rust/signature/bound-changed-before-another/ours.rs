pub fn chart<T>(curve: T) -> Chart
where
    T: tides::Curve + Send,
{
    Chart::of(curve)
}
