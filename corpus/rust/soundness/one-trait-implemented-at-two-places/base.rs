impl From<io::Error> for TideError {
    fn from(e: io::Error) -> Self {
        TideError::Io(e)
    }
}
