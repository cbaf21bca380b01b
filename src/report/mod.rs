//! Tables, JSON, Markdown.
