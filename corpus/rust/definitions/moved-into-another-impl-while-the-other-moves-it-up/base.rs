impl Tide for Gauge {
    fn levels(&self) -> (u32, u32) {
        let (low, high) = self.readings.clone().split();
        let high = high.max(low);
        (low, high)
    }
    #[inline]
    fn rest(&self) {
        self.pump.stop();
    }
}
impl Drop for Gauge {
    fn drop(&mut self) {
        clear(self);
    }
}
