pub fn feed(url: &str) -> Box<dyn Feed + Send> {
    open(url)
}

pub struct Board<'a> {
    gauge: Box<dyn Gauge<Metres> + Send + 'a>,
    route: &'a Box<dyn Feed>,
}
