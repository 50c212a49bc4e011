/** Handing in: the form's own values become a file. The board judges, reveals and keeps its place in the form by itself. */
const form = document.querySelector('form');
const board = form.querySelector('swatch-bucket-board');
const said = document.querySelector('#handed-in');
let handedIn = false;

form.addEventListener('submit', (event) => {
  event.preventDefault();
  const values = new FormData(form);
  const student = values.get('student').trim();
  const submission = { student, ...JSON.parse(values.get('board')) };
  const name = `${fileName(student)}-${submission.attempt}.json`;
  save(name, JSON.stringify(submission, null, 2));
  const wrong = submission.verdict.swatches.filter(({ verdict }) => verdict.startsWith('too-'));
  const result =
    wrong.length === 0
      ? 'Nothing is out of place.'
      : `${wrong.length === 1 ? 'One swatch is' : `${wrong.length} swatches are`} out of place; the board above says why.`;
  said.textContent = `Handed in as ${name}. ${result} If you change the board and hand it in again, that is your next attempt.`;
  handedIn = true;
});

board.addEventListener('board-change', () => {
  if (!handedIn) return;
  handedIn = false;
  board.attempt += 1;
  said.textContent = `You are at attempt ${board.attempt} now. The verdict comes when you hand it in.`;
});

/** Letters and digits of any script stay, everything else becomes a dash. */
function fileName(text) {
  const plain = text.normalize('NFC').toLowerCase();
  return plain.replace(/[^\p{L}\p{N}\p{M}]+/gu, '-').replace(/^-|-$/g, '') || 'student';
}

function save(name, text) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
