use std::fmt;

use super::bold;

/// Columns of text, each as wide as it must be.
#[derive(Clone, Debug)]
pub struct Table<const N: usize> {
    header: [String; N],
    rows: Vec<[String; N]>,
}

impl<const N: usize> Table<N> {
    /// A table without rows.
    pub fn new(header: [&str; N]) -> Table<N> {
        Table { header: header.map(str::to_owned), rows: Vec::new() }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: [String; N]) {
        self.rows.push(cells);
    }
}

impl<const N: usize> fmt::Display for Table<N> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let width = |column: usize| {
            let cells = self.rows.iter().chain([&self.header]).map(|row| row[column].chars().count());
            cells.max().unwrap_or_default()
        };
        let widths: [usize; N] = std::array::from_fn(width);
        let line = |row: &[String; N]| {
            let mut line = String::new();
            for (cell, width) in row.iter().zip(widths) {
                line.push_str(&format!("{cell:width$}  "));
            }
            line.truncate(line.trim_end().len());
            line
        };
        writeln!(f, "{}", bold(&line(&self.header)))?;
        self.rows.iter().try_for_each(|row| writeln!(f, "{}", line(row)))
    }
}
