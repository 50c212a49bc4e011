import type { Server } from 'node:http';

/** A server of `demo/` and `dist/`; extra headers go with every file. */
export function demoServer(headers?: Record<string, string>): Server;
