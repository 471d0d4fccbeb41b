// Everything works without this file, by plain forms. With it nothing jumps: only the parts that changed are
// drawn anew, forms stand in front, and what others do shows by itself.

const sent = new Map(partsIn(document).map((part) => [part.id, part.innerHTML]))
let busy = false
let returnTo = ''

document.addEventListener('submit', (event) => {
  event.preventDefault()
  const form = event.target
  if (busy) return
  const fields = new FormData(form, event.submitter)
  if (!form.closest('dialog')) returnTo = event.submitter?.id ?? ''
  const body = new URLSearchParams([...fields].map(([name, value]) => [name, String(value)]))
  void draw(form.action, { method: 'POST', body }).then(() => {
    if (form.classList.contains('write')) form.reset()
  })
})

// Escape leaves a form in the same way as its own button does.
document.addEventListener(
  'cancel',
  (event) => {
    event.preventDefault()
    event.target.querySelector('button[value=close]').click()
  },
  true,
)

if (document.querySelector('main form')) {
  const news = new EventSource('/news')
  news.addEventListener('turn', () => busy || void draw(location.href))
}

bringToFront()

async function draw(address, how) {
  const mine = how !== undefined
  if (mine) {
    busy = true
    document.body.ariaBusy = 'true'
  }
  try {
    const response = await fetch(address, how)
    if (mine || !busy) show(new DOMParser().parseFromString(await response.text(), 'text/html'), mine)
  } catch {
    document.querySelector('#said').textContent =
      'The rehearsal has ended: nobody answers on this page any more.'
  } finally {
    if (mine) {
      busy = false
      document.body.ariaBusy = null
    }
  }
}

function show(next, mine) {
  const focused = document.activeElement?.id ?? ''
  for (const part of partsIn(next)) {
    const here = document.getElementById(part.id)
    if (!here || sent.get(part.id) === part.innerHTML) continue
    sent.set(part.id, part.innerHTML)
    const typed = mine ? new Map() : typedIn(here)
    here.replaceChildren(...part.childNodes)
    typeAgain(here, typed)
  }
  const hadFront = document.querySelector('dialog:modal') !== null
  bringToFront()
  if (document.querySelector('dialog:modal')) return
  if (document.activeElement !== document.body && !hadFront) return
  const back = document.getElementById(focused) ?? document.getElementById(returnTo)
  ;(back ?? document.getElementById('person'))?.focus()
}

function bringToFront() {
  for (const dialog of document.querySelectorAll('dialog[open]:not(:modal)')) {
    dialog.close()
    dialog.showModal()
    const field = dialog.querySelector('[data-wrong]') ?? dialog.querySelector('[data-field]')
    const choice = field?.matches('fieldset') && field.querySelector('input')
    ;(choice || field)?.focus()
  }
}

function partsIn(document) {
  return [...document.querySelectorAll('[data-part]')]
}

// What is typed and not sent yet outlives a change that somebody else made.
function typedIn(part) {
  const form = part.querySelector('form')
  return new Map(
    form ? [...new FormData(form).keys()].map((name) => [name, new FormData(form).getAll(name)]) : [],
  )
}

function typeAgain(part, typed) {
  for (const field of part.querySelectorAll('[name^="f-"]')) {
    const values = typed.get(field.name)
    if (!values) continue
    if (field.type === 'checkbox' || field.type === 'radio') field.checked = values.includes(field.value)
    else field.value = values[0]
  }
}
