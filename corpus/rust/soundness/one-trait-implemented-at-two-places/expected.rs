impl From<ParseError> for TideError {
    fn from(e: ParseError) -> Self {
<<<<<<< ours
        TideError::Parse(e)
=======
        TideError::BadInput(e)
>>>>>>> theirs
    }
}

impl From<io::Error> for TideError {
    fn from(e: io::Error) -> Self {
        TideError::Io(e)
    }
}
