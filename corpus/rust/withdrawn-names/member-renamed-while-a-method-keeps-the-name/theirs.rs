impl Forecast {
    fn limit(&self, rows: usize) -> usize {
        rows.min(self.max_rows)
    }

    fn first(&self) -> usize {
        self.max_rows + 1
    }

    fn last(&self, station: &str) -> usize {
        let all = rows(station, 2).take(self.max_rows);
        let half = self.max_rows / 2;
        show(all, half);
        self.max_rows - 1
    }
}
