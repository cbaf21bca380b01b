use tideboard::model::High;
use tideboard::model::Low;
use tideboard::model::Spring;

const KINDS: [Kind; 2] = [High, Low];
