//! The three versions of a merge as one value, so that nothing is written twice for ours and theirs.

/// One of the three inputs of a merge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Version {
    /// The common ancestor.
    Base,
    /// The current branch (`%A`, stage 2).
    Ours,
    /// The other branch (`%B`, stage 3).
    Theirs,
}

/// One of the two changed inputs of a merge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The current branch.
    Ours,
    /// The other branch.
    Theirs,
}

impl Side {
    /// Both sides, ours first: the order in which insertions at one place are laid out.
    pub const BOTH: [Side; 2] = [Side::Ours, Side::Theirs];

    /// The other side.
    pub fn other(self) -> Side {
        match self {
            Side::Ours => Side::Theirs,
            Side::Theirs => Side::Ours,
        }
    }

    /// Of a thing of each side, this one's.
    pub fn of<T>(self, ours: T, theirs: T) -> T {
        match self {
            Side::Ours => ours,
            Side::Theirs => theirs,
        }
    }
}

impl From<Side> for Version {
    fn from(side: Side) -> Version {
        match side {
            Side::Ours => Version::Ours,
            Side::Theirs => Version::Theirs,
        }
    }
}

impl Version {
    /// What people call it.
    pub fn name(self) -> &'static str {
        match self {
            Version::Base => "base",
            Version::Ours => "ours",
            Version::Theirs => "theirs",
        }
    }

    /// All three, base first.
    pub const ALL: [Version; 3] = [Version::Base, Version::Ours, Version::Theirs];
}

/// A value for each of base, ours and theirs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Versions<T> {
    /// What belongs to the common ancestor.
    pub base: T,
    /// What belongs to the current branch.
    pub ours: T,
    /// What belongs to the other branch.
    pub theirs: T,
}

impl<T> Versions<T> {
    /// What `f` gives for each version, base first.
    pub fn each(f: impl FnMut(Version) -> T) -> Versions<T> {
        Versions { base: Version::Base, ours: Version::Ours, theirs: Version::Theirs }.map(f)
    }

    /// The value of one version.
    pub fn get(&self, version: impl Into<Version>) -> &T {
        match version.into() {
            Version::Base => &self.base,
            Version::Ours => &self.ours,
            Version::Theirs => &self.theirs,
        }
    }

    /// The value of one version, to change.
    pub fn get_mut(&mut self, version: impl Into<Version>) -> &mut T {
        match version.into() {
            Version::Base => &mut self.base,
            Version::Ours => &mut self.ours,
            Version::Theirs => &mut self.theirs,
        }
    }

    /// Applies `f` to each value.
    pub fn map<U>(self, mut f: impl FnMut(T) -> U) -> Versions<U> {
        Versions { base: f(self.base), ours: f(self.ours), theirs: f(self.theirs) }
    }

    /// The same shape, by reference.
    pub fn as_ref(&self) -> Versions<&T> {
        Versions { base: &self.base, ours: &self.ours, theirs: &self.theirs }
    }

    /// Pairs each value with that of `other`.
    pub fn zip<U>(self, other: Versions<U>) -> Versions<(T, U)> {
        Versions { base: (self.base, other.base), ours: (self.ours, other.ours), theirs: (self.theirs, other.theirs) }
    }

    /// Ours and theirs exchanged (contract K2).
    pub fn mirrored(self) -> Versions<T> {
        Versions { base: self.base, ours: self.theirs, theirs: self.ours }
    }
}
