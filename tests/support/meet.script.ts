/** The script of the published example, as JSON Lines. */
export default `# Two cabs on one supply meet at the siding; then one asks for the block that is wired straight to a third throttle.
{"at": 0, "do": "open-session"}
{"at": 1, "do": "assign-cab", "cab": "1", "person": "Avery"}
{"at": 2, "do": "assign-cab", "cab": "2", "person": "Blake"}
{"at": 3, "do": "place-train", "train": "t7", "edge": "e1", "toward": "g1", "cab": "1"}
{"at": 4, "do": "place-train", "train": "t12", "edge": "e5", "toward": "g3", "cab": "2"}
{"at": 5, "do": "turn-selector", "selector": "K3", "position": "2"}
{"at": 6, "do": "request-move", "train": "t7", "to": "B2"}
{"at": 7, "do": "start"}
{"at": 8, "do": "request-move", "train": "t7", "to": "B3"}
{"at": 9, "do": "request-move", "train": "t7", "to": "B4"}
{"at": 10, "do": "request-move", "train": "t7", "to": "B2"}
{"at": 11, "do": "request-move", "train": "t7", "to": "e7"}
{"at": 12, "do": "acknowledge", "authority": "a1"}
{"at": 13, "do": "turn-selector", "selector": "K2", "position": "2"}
{"at": 14, "do": "turn-selector", "selector": "K1", "position": "1"}
{"at": 15, "do": "turn-selector", "selector": "K2", "position": "1"}
{"at": 16, "do": "throw-turnout", "turnout": "T1", "position": "reverse"}
{"at": 17, "do": "train-entered", "train": "t7", "block": "B2"}
{"at": 18, "do": "turn-selector", "selector": "K1", "position": "2"}
{"at": 30, "do": "train-cleared", "train": "t7", "block": "B1"}
{"at": 31, "do": "turn-selector", "selector": "K1", "position": "2"}
{"at": 40, "do": "phase-measured", "a": "north", "b": "south", "voltsA": 18.0, "voltsB": 18.0, "voltsAcross": 36.0}
{"at": 41, "do": "request-move", "train": "t7", "to": "B4"}
{"at": 42, "do": "train-entered", "train": "t12", "block": "B2"}
`;
