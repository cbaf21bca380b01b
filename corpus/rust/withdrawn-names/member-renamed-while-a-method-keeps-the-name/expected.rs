impl Forecast {
    fn limit(&self, rows: usize) -> usize {
        rows.min(self.max_rows)
    }

<<<<<<< ours
    fn half(&self) -> usize {
        self.limit / 2
    }

=======
>>>>>>> theirs
    fn first(&self) -> usize {
        self.max_rows + 1
    }

    fn last(&self, station: &str) -> usize {
        let all = rows(station, 2).most().take(self.max_rows);
        let half = self.max_rows / 2;
        show(all, half);
        self.max_rows - 1
    }
}
