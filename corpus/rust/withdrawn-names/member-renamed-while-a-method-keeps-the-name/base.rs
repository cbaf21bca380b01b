impl Forecast {
    fn limit(&self, rows: usize) -> usize {
        rows.min(self.limit)
    }

    fn first(&self) -> usize {
        self.limit + 1
    }

    fn last(&self, station: &str) -> usize {
        let all = rows(station).take(self.limit);
        let half = self.limit / 2;
        show(all, half);
        self.limit - 1
    }
}
