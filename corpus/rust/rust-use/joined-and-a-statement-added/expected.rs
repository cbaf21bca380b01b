use tideboard::model::{High, Low, Spring};

const KINDS: [Kind; 2] = [High, Low];
