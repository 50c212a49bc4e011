/** What of the library ZIP files need; it comes with the first file that is written or read. */
export { Inflate, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
