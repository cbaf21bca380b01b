//! K7: always an answer.
