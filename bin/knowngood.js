#!/usr/bin/env node
import '../dist/cli/run.js';
