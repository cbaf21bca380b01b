impl Quay {
fn warn(&self) {
    let late = self.feeds.iter().filter(|feed| feed.age() > limit(feed, self.patience)).count();
    self.lamp.set(late > 0);
}
}
