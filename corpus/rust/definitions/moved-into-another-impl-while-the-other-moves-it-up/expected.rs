impl Tide for Gauge {
    fn levels(&self) -> (u32, u32) {
        let (low, high) = self.readings.clone().split();
        let high = high.max(low);
        (low, high)
    }
}
impl Drop for Gauge {
    #[inline]
    fn rest(&self) {
        self.pump.stop();
    }
    fn drop(&mut self) {
        clear(self);
    }
}
