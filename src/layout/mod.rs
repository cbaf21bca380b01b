//! Pieces to bytes.
