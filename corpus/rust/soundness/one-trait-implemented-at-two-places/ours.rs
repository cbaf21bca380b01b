impl From<ParseError> for TideError {
    fn from(e: ParseError) -> Self {
        TideError::Parse(e)
    }
}

impl From<io::Error> for TideError {
    fn from(e: io::Error) -> Self {
        TideError::Io(e)
    }
}
