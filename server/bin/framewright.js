#!/usr/bin/env node
require('../dist/cli.cjs').run(process.argv.slice(2));
