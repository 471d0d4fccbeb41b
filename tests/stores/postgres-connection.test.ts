import { expect, test } from 'vitest'
import { StoreClosed } from '../../src/desk/ports.ts'
import { connectionOf } from '../../src/stores/postgres-connection.ts'

test('a database on another machine is reached with TLS and a checked certificate, or not at all', () => {
  expect(connectionOf('postgres://a@db.clinic.example/charts').ssl).toEqual({ rejectUnauthorized: true })
  expect(connectionOf('postgres://a@db.clinic.example/charts?sslmode=require')).toEqual({
    connectionString: 'postgres://a@db.clinic.example/charts',
    ssl: { rejectUnauthorized: true },
  })
  for (const mode of ['disable', 'allow', 'prefer', 'no-verify', 'verify-ca'])
    expect(() => connectionOf(`postgres://a@db.clinic.example/charts?sslmode=${mode}`)).toThrow(StoreClosed)
  expect(connectionOf('postgres://a@10.0.0.5/charts?ssl=false').ssl).toEqual({ rejectUnauthorized: true })
  expect(connectionOf('postgres://a@localhost/charts?host=10.0.0.5').ssl).toEqual({
    rejectUnauthorized: true,
  })
})

test('on this machine TLS is not asked for', () => {
  for (const host of ['localhost', '127.0.0.1', '[::1]'])
    expect(connectionOf(`postgres://a@${host}:5433/charts`).ssl).toBe(false)
  expect(connectionOf('postgres:///charts?host=/run/postgresql').ssl).toBe(false)
  expect(connectionOf('postgres://a@localhost/charts?sslmode=require').ssl).toEqual({
    rejectUnauthorized: true,
  })
})
