pub fn chart<T>(curve: T) -> Chart
where
    T: tide::Curve<f64> + Send,
{
    Chart::of(curve)
}
