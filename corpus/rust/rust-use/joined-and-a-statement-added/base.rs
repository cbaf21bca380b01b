use tideboard::model::High;
use tideboard::model::Low;

const KINDS: [Kind; 2] = [High, Low];
