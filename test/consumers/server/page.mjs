// A page rendered on a server: the kit's classes import there, and what is between the tags shows before any script runs.
import { createElement as h } from 'react';
import { renderToString } from 'react-dom/server';
import { ValueBandViewer } from 'tonewell';
import 'tonewell/define';
import { lightnessOf } from 'tonewell/core';

const image = h('img', { src: '/photo.jpg', alt: 'A clay dog', width: 300, height: 400 });
const figure = h(ValueBandViewer.tag, { loading: 'eager', alt: 'A clay dog' }, image);
const caption = h('p', null, `White has L* ${Math.round(lightnessOf('#fff'))}.`);
process.stdout.write(renderToString(h('main', null, figure, caption)));
