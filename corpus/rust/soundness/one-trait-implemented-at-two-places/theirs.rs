impl From<io::Error> for TideError {
    fn from(e: io::Error) -> Self {
        TideError::Io(e)
    }
}

impl From<ParseError> for TideError {
    fn from(e: ParseError) -> Self {
        TideError::BadInput(e)
    }
}
