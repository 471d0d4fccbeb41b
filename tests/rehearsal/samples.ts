import type { KnownBlock, ModalView } from '@slack/types'

export const plain = (text: string) => ({ type: 'plain_text' as const, text })

/** A short morning form: a number, a choice, a note. */
export const form: ModalView = {
  type: 'modal',
  callback_id: 'morning',
  private_metadata: 'kept',
  title: plain('Morning'),
  submit: plain('Send'),
  close: plain('Not now'),
  notify_on_close: true,
  blocks: [
    {
      type: 'input',
      block_id: 'pain',
      label: plain('Pain'),
      element: {
        type: 'number_input',
        action_id: 'number',
        is_decimal_allowed: false,
        min_value: '0',
        max_value: '10',
      },
    },
    {
      type: 'input',
      block_id: 'sleep',
      label: plain('Sleep'),
      element: {
        type: 'radio_buttons',
        action_id: 'choice',
        options: [
          { text: plain('Well'), value: 'well' },
          { text: plain('Badly'), value: 'badly' },
        ],
      },
    },
    {
      type: 'input',
      block_id: 'note',
      label: plain('Note'),
      optional: true,
      element: { type: 'plain_text_input', action_id: 'text', max_length: 20 },
    },
  ],
}

export const buttons: KnownBlock[] = [
  { type: 'section', block_id: 'words', text: { type: 'mrkdwn', text: 'A *call* for <@UADA>' } },
  {
    type: 'actions',
    block_id: 'answers',
    elements: [
      { type: 'button', action_id: 'acknowledge', text: plain('Acknowledge'), value: 'call/1' },
      {
        type: 'button',
        action_id: 'stand-down',
        text: plain('Stand down'),
        confirm: {
          title: plain('Sure?'),
          text: plain('Nobody will be called.'),
          confirm: plain('Yes'),
          deny: plain('No'),
        },
      },
      {
        type: 'static_select',
        action_id: 'disposition',
        placeholder: plain('Disposition'),
        options: [
          { text: plain('Seen'), value: 'seen' },
          { text: plain('Referred'), value: 'referred' },
        ],
      },
    ],
  },
]
