impl Board {
    // What the quay sees.
    fn show(&self, out: &mut Out) -> Result<usize> {
        out.write(self.level)?;
        Ok(())
    }

    fn kind(&self) -> Kind {
    }
    fn size(&self) -> u64 {
        self.rows
    }
}
