"use strict";
// The page of changed lines: its one button.

document.getElementById("print").addEventListener("click", () => print());
