use tideboard::model::{High, Low};

const KINDS: [Kind; 2] = [High, Low];
