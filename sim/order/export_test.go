package order

// GoodLog is a sound log of format 1.
const GoodLog = `{"dryline_session":1,"exercise":"x","sha256":"00","seed":3,"source":"title: x\n"}
{"tick":0,"do":"speed","value":2}
{"tick":40,"do":"log_on","line":"L1"}
{"end":900,"reason":"interrupted"}
`
