impl Board {
    // What the quay sees.

    fn kind(&self) -> Kind {
    }
    fn show(&self, out: &mut Out) -> Result<()> {
        out.write(self.level)?;
        Ok(())
    }
    fn size(&self) -> u64 {
        self.rows
    }
}
