impl Quay {
fn warn(&self) {
    if self.lamp.works() {
        let late = self.feeds.iter().filter(|feed| feed.age() > limit(feed, 60)).count();
        self.lamp.set(late > 0);
    }
}
}
