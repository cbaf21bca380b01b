pub fn feed(url: &str) -> Box<Feed + Send> {
    open(url)
}

pub struct Board<'a> {
    gauge: Box<Gauge<Metres> + Send + 'a>,
    route: &'a Box<Feed>,
}
