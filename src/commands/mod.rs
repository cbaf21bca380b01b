//! One file a command, thin.
