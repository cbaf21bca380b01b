//! Repository, configuration, attributes, the driver protocol.
