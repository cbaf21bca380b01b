pub fn chart<T>(curve: T) -> Chart
where
    T: tide::Curve + Send,
{
    Chart::of(curve)
}
