pub fn chart<T>(curve: T) -> Chart
where
    T: tide::Level<f64> + Send,
{
    Chart::of(curve)
}
