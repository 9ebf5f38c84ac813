// Stands in for the workbench's native log writer, which would have to be compiled. Log files, and with them the
// output channels, are written by it; rotation and buffering are not needed for a test run.
const { appendFileSync, mkdirSync, writeFileSync } = require('node:fs');
const { dirname } = require('node:path');

const levels = ['trace', 'debug', 'info', 'warning', 'error', 'critical'];

class Logger {
  constructor(_type, _name, file) {
    this.file = file;
    this.level = levels.indexOf('info');
    this.bare = false;
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, '', { flag: 'a' });
  }

  write(level, message) {
    if (level < this.level) return;
    const time = new Date().toISOString().replace('T', ' ').replace('Z', '');
    appendFileSync(this.file, this.bare ? message : `${time} [${levels[level]}] ${message}\n`);
  }

  getLevel() {
    return this.level;
  }

  setLevel(level) {
    this.level = level;
  }

  clearFormatters() {
    this.bare = true;
  }

  setPattern() {}
  flush() {}
  drop() {}
}

for (const [level, name] of [...levels.entries(), [3, 'warn']]) {
  Logger.prototype[name] = function log(message) {
    this.write(level, message);
  };
}

const create = async (name, file) => new Logger('rotating', name, file);
// One by one: the workbench imports them by name, and only such assignments are seen as names.
exports.Logger = Logger;
exports.version = 0;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.shutdown = () => {};
exports.createRotatingLogger = create;
exports.createAsyncRotatingLogger = create;
